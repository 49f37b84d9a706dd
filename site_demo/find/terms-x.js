journalFind("terms","x",["xQw79","x1Qw79"]);
