journalFind("terms","z",["zeroQE7f","zincQL1DG1G1EC494k6d1w3f1u1gG4Nw3nY2E","zincplatedQZhE","zipQP6Gy1m"]);
