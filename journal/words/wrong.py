"""The one exception for a wrong call: a folder that is not there, a name that no car has."""


class WrongCall(Exception):
    """What was asked for cannot be done; the message says why and what to do instead."""
