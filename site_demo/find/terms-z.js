journalFind("terms","z",["zeroQD7e","zincQK1CG1G1DC494j6c1v3e1t1lG4NB5D","zincplatedQAhD","zipQO6Fy1l"]);
