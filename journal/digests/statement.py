"""The owner's statements: what was stated for closed periods, and what is due since the last one.

Takes what every sheet comes to; hears the issued statements and the payments of the car. An issued
statement stands as it was issued. What a sheet comes to now is compared with all that was stated of
it; a difference is an adjustment of the next statement, under the name of the sheet. In this way the
net amounts of all statements always add up to what the sheets come to. A payment that was written
down late, or taken back, goes the same way.
"""

from collections import Counter
from collections.abc import Iterable, Iterator
from datetime import date, timedelta
from decimal import Decimal

from msgspec import Struct
from msgspec.structs import replace

from journal.records.carfile import CarFile
from journal.records.fields import Named
from journal.records.statement import StatedLine, StatedPayment, StatementFile
from journal.words.dates import parse_date
from journal.words.money import tax_on, to_coin

_NOTHING = Decimal(0)
_FIGURES = ("hours", "uncharged", "labour", "parts", "outwork", "extras")


class Stated(Struct, frozen=True):
    """One statement. `issued` is absent as long as it runs; `brought` is the balance before it.

    `lines` are the sheets of its period, `adjusted` the corrections to earlier periods, both with
    their net amounts by sheet. A balance above nothing is owed by the owner.
    """

    from_: date
    to: date
    issued: date | None
    lines: Named[StatedLine]
    adjusted: Named[StatedLine]
    payments: tuple[StatedPayment, ...]
    brought: Decimal
    tax: Decimal
    total: Decimal
    note: str | None = None

    @property
    def work(self) -> StatedLine:
        """The sheets of the period together."""
        return added(line for _, line in self.lines)

    @property
    def adjustments(self) -> Decimal:
        """The net of all corrections to earlier periods."""
        return sum((line.net for _, line in self.adjusted), _NOTHING)

    @property
    def net(self) -> Decimal:
        """The period and the corrections, without tax."""
        return self.work.net + self.adjustments

    @property
    def days(self) -> int:
        """Days of the period on which hours were told."""
        return len({line.on for _, line in self.lines if line.hours or line.uncharged})

    @property
    def paid(self) -> Decimal:
        """All payments received in the period."""
        return sum((p.amount for p in self.payments), _NOTHING)

    @property
    def carried(self) -> Decimal:
        """The balance after it."""
        return self.brought + self.total - self.paid

    @property
    def empty(self) -> bool:
        """Whether there is nothing to state."""
        return not (len(self.lines) or len(self.adjusted) or self.payments)

    def issue(self, day: date) -> StatementFile:
        """The statement as the file that holds it once it is issued on a day."""
        return StatementFile.model_construct(
            from_=self.from_, to=self.to, issued=day, sheets=self.lines, adjusted=self.adjusted,
            adjustments=self.adjustments, tax=self.tax, total=self.total, payments=self.payments,
        )  # fmt: skip


class Statements(Struct, frozen=True):
    """The issued statements in the order of their periods, and the running one."""

    issued: tuple[Stated, ...]
    running: Stated

    @property
    def shown(self) -> tuple[Stated, ...]:
        """Issued ones, and the running one when there is something in it."""
        return self.issued if self.running.empty else (*self.issued, self.running)

    def without_running(self) -> "Statements":
        """The issued statements alone: nothing new is stated from files that cannot all be read."""
        bare = replace(
            self.running, lines=Named(), adjusted=Named(), payments=(), tax=_NOTHING, total=_NOTHING
        )
        return Statements(self.issued, bare)

    @property
    def balance(self) -> Decimal:
        """What the owner owes with all that is known; below nothing, what is kept for them."""
        return self.running.carried


def added(lines: Iterable[StatedLine]) -> StatedLine:
    """The sum of lines, figure by figure."""
    lines = tuple(lines)
    return StatedLine.model_validate(
        {figure: sum((getattr(line, figure) for line in lines), _NOTHING) for figure in _FIGURES}
    )


def known_until(car: CarFile, day: date) -> date:
    """The day up to which the money of a car is known: of its last sheet or its last payment."""
    return max([day, *(payment.on for payment in car.car.payments)])


def digest_statement(car: CarFile, *, lines: Named[StatedLine], until: date) -> Statements:
    """The statements of a car with the running one up to a day.

    `lines` is what each sheet comes to now. The running period starts on the day after the last
    statement, or with the booking in, and lasts that one day at least.
    """
    issued: list[Stated] = []
    for statement in car.statements:
        brought = issued[-1].carried if issued else _NOTHING
        issued.append(_issued(statement.file, brought, lines))
    return Statements(tuple(issued), _running(car, issued, lines, until))


def _issued(file: StatementFile, brought: Decimal, now: Named[StatedLine]) -> Stated:
    adjusted = file.adjusted
    unnamed = file.adjustments - sum((line.net for _, line in adjusted), _NOTHING)
    if unnamed:
        # Corrections that stand in the file as a sum alone keep their amount without a sheet.
        line = added(()).model_copy(update={"labour": unnamed})
        adjusted = Named([*adjusted, ("", line)])
    return Stated(
        file.from_, file.to, file.issued, _dated(file.sheets, now), _dated(adjusted, now),
        file.payments, brought, file.tax, file.total, file.note,
    )  # fmt: skip


def _dated(lines: Named[StatedLine], now: Named[StatedLine]) -> Named[StatedLine]:
    """Lines with their day: as stated, else by the name of the sheet, else as the sheet has it now."""
    return Named((name, line if line.on else _on(name, line, now)) for name, line in lines)


def _on(name: str, line: StatedLine, now: Named[StatedLine]) -> StatedLine:
    try:
        day: date | None = parse_date(name[:10])
    except ValueError:
        known = now.get(name)
        day = known.on if known else None
    return line.model_copy(update={"on": day})


def _running(car: CarFile, issued: list[Stated], lines: Named[StatedLine], until: date) -> Stated:
    last = max((s.to for s in issued), default=None)
    first = last + timedelta(days=1) if last else _beginning(car)
    to = max(until, first)
    own = Named((n, line) for n, line in lines if line.on and first <= line.on <= to)
    adjusted = Named(_adjustments(car, issued, lines, first))
    nets = tuple(line.net for _, line in (*own, *adjusted))
    shop = car.workshop
    tax = tax_on(nets, shop.tax or _NOTHING, shop.currency, shop.tax_by, shop.tax_rounding)
    brought = issued[-1].carried if issued else _NOTHING
    payments = tuple(_payments(car, issued, to))
    return Stated(first, to, None, own, adjusted, payments, brought, tax, sum(nets, _NOTHING) + tax)


def _beginning(car: CarFile) -> date:
    """The first period starts with the booking in, or with a sheet dated before it."""
    return min([car.car.booked_in, *(sheet.date for sheet in car.sheets[:1])])


def _adjustments(
    car: CarFile, issued: list[Stated], lines: Named[StatedLine], first: date
) -> Iterator[tuple[str, StatedLine]]:
    """By sheet, what it comes to in closed periods now less all that was stated of it.

    A sheet that cannot be read now, or not wholly, is left as it was stated.
    """
    stated: dict[str, list[StatedLine]] = {}
    for statement in issued:
        for name, line in (*statement.lines, *statement.adjusted):
            if name:
                stated.setdefault(name, []).append(line)
    now = {name: line for name, line in lines if line.on and line.on < first}
    days = {name: line.on for name, line in now.items()}
    days |= {name: old[0].on for name, old in stated.items() if name not in days}
    for name in sorted(days, key=lambda name: (days[name] or date.min, name)):
        if name in car.unread | car.partly:
            continue
        before = added(stated.get(name, ()))
        change = _difference(now.get(name, added(())), before)
        if any(getattr(change, figure) for figure in _FIGURES):
            yield name, change.model_copy(update={"on": days[name]})


def _difference(now: StatedLine, before: StatedLine) -> StatedLine:
    return StatedLine.model_validate(
        {figure: getattr(now, figure) - getattr(before, figure) for figure in _FIGURES}
    )


def _payments(car: CarFile, issued: list[Stated], to: date) -> Iterator[StatedPayment]:
    """Payments up to a day that no statement has shown, and those shown that are no longer there."""
    open_: Counter[tuple[date, Decimal]] = Counter()
    for statement in issued:
        for paid in statement.payments:
            open_[paid.on, abs(paid.amount)] += 1 if paid.amount > 0 else -1
    for payment in sorted(car.car.payments, key=lambda p: p.on):
        amount = to_coin(payment.amount, car.workshop.currency)
        key = (payment.on, amount)
        if payment.on > to or not amount:
            continue
        if open_[key] > 0:
            open_[key] -= 1
        else:
            yield StatedPayment.model_validate(
                {"on": payment.on, "amount": amount, "what": payment.what}
            )
    for (day, amount), left in open_.items():
        for _ in range(left):
            yield StatedPayment.model_validate({"on": day, "amount": -amount, "what": "taken back"})
