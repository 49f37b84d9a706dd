"""The desk: the workshop's archive, live, on this computer and on the workshop's phones.

What is written on disk is read again as it changes, and the pages that are open are told. `app` puts
it together; `guard` stands before everything that is asked.
"""
