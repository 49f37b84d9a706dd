journalFind("terms","x",["xQw7aC8y5r","x1Qw7a"]);
