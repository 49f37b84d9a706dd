journalFind("terms","ω",["ωQz8jy3F"]);
