journalFind("terms","z",["zeroQB7e","zincQI1CG1G1DC494j6c1v3e1t1lG4Nv5D","zincplatedQXgD","zipQM6Fy1l"]);
