journalFind("terms","ω",["ωQX8cB5E"]);
