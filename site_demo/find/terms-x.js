journalFind("terms","x",["xQv79","x1Qv79"]);
