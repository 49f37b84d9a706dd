journalFind("terms","z",["zeroQE7e","zincQL1CG1G1DC494j6c1v3e1t1lG4NB5D","zincplatedQBhD","zipQP6Fy1l"]);
