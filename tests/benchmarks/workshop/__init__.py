"""A workshop drawn from a seed, as large as it is asked for.

`things` are the components of a car and what is usually done to each; `deeds` what one day does to one of
them; `lives` the order in which deeds follow each other; `days` picks deeds for every sheet; `sheets` puts
them into words; `cars` writes the other files of a car; `photographs` makes its pictures. Cars, people,
firms and their words are invented; what is done to a car, and in which order, is common practice, no source.
"""
