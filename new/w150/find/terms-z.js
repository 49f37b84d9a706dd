journalFind("terms","z",["zincQI5fkjbx5sC1I9jB2J3P1P1P"]);
