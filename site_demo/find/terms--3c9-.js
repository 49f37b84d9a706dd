journalFind("terms","ω",["ωQv9cB5E"]);
