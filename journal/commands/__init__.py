"""The command `journal`: arguments in, problems and tables out, exit codes. No rules of its own.

Exit codes: 0 clean, 1 problems in what was written, 2 a wrong call.
"""

import click

from journal import __version__
from journal.commands.amend import amend
from journal.commands.bookin import book_in
from journal.commands.check import check
from journal.commands.desk import desk_command
from journal.commands.handover import handover
from journal.commands.print import print_command
from journal.commands.publish import publish_command
from journal.commands.schema import schema
from journal.commands.seal import make_key_command, seal
from journal.commands.show import show
from journal.commands.statement import statement
from journal.commands.verify import verify
from journal.commands.write import write


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="journal")
def main() -> None:
    """Keep the build journal of a restoration: day sheets in, archive and ledgers out."""


for command in (
    book_in,
    write,
    amend,
    check,
    publish_command,
    desk_command,
    print_command,
    show,
    statement,
    schema,
    make_key_command,
    seal,
    handover,
    verify,
):
    main.add_command(command)
