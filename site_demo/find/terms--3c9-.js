journalFind("terms","ω",["ωQZ8cB5E"]);
