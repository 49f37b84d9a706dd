journalFind("terms","q",["quietQF4dpffh2d2daj9mbi3h7j9h7e5i6def1k4f5i5i7h","quiteQE4d3i1gfm2e4i1f2g3h1d3f1c2h4h3d2ifd3f1h5i1k2g2j1i1h7j3k4d7oai2d5h4e3j4k2m2f4h1i1l5h","quotedQZ5g9iB1eueafah"]);
