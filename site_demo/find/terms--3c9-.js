journalFind("terms","ω",["ωQv9dB5F"]);
