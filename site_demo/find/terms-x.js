journalFind("terms","x",["xQY69","x1QY69"]);
