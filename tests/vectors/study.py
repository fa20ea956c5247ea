"""Answers of other programs for stability studies: writes study.json beside this file.

Days are counted by dateutil (relativedelta for months, whose rule for the end of a month is the one that is checked), and
study.ics, which `cargo test --test study` writes with STUDY=write, is read by icalendar, a parser of RFC 5545.

Needs: pip install icalendar python-dateutil. Then: python tests/vectors/study.py
"""

import datetime
import json
import pathlib

import dateutil
import icalendar
from dateutil.relativedelta import relativedelta

HERE = pathlib.Path(__file__).parent
BEGAN = [
    "2026-11-30", "2026-01-31", "2024-01-31", "2023-12-31", "2024-02-29", "2027-02-28", "2099-12-31", "2100-01-31",
    "2000-01-30", "2026-08-31", "2026-03-29", "1999-12-15",
]
POINTS = ["0d", "1d", "60d", "366d", "2w", "8w", "1m", "3m", "6m", "9m", "12m", "18m", "24m"]


def day(began: str, point: str) -> str:
    count, unit = int(point[:-1]), point[-1]
    after = {"d": {"days": count}, "w": {"weeks": count}, "m": {"months": count}}[unit]
    return (datetime.date.fromisoformat(began) + relativedelta(**after)).isoformat()


def event(found: icalendar.Event) -> dict:
    (alarm,) = [part for part in found.walk() if part.name == "VALARM"]
    start, end = found.decoded("DTSTART"), found.decoded("DTEND")
    assert type(start) is datetime.date and (end - start).days == 1
    return {
        "uid": str(found["UID"]),
        "day": start.isoformat(),
        "summary": str(found["SUMMARY"]),
        "text": str(found["DESCRIPTION"]),
        "stamp": found.decoded("DTSTAMP").strftime("%Y-%m-%dT%H:%M:%SZ"),
        "alarm_minutes": int(alarm.decoded("TRIGGER").total_seconds() // 60),
        "action": str(alarm["ACTION"]),
    }


calendar = icalendar.Calendar.from_ical((HERE / "study.ics").read_bytes())
assert not calendar.errors and str(calendar["VERSION"]) == "2.0"


def keeps(expiry: str, opened: str, months: int) -> str:
    """The earlier of a lot's own end and the one that follows from its opening."""
    ends = [datetime.date.fromisoformat(expiry)] if expiry else []
    if opened and months:
        ends.append(datetime.date.fromisoformat(opened) + relativedelta(months=months))
    return min(ends).isoformat() if ends else ""


answers = {
    "made_with": f"dateutil {dateutil.__version__}, icalendar {icalendar.__version__}",
    "days": [[began, point, day(began, point)] for began in BEGAN for point in POINTS],
    "lots": [
        [expiry, opened, months, keeps(expiry, opened, months)]
        for expiry in ["", "2026-12-31", "2027-02-28", "2028-02-29"]
        for opened in ["", "2025-08-31", "2026-05-31", "2026-08-29", "2027-02-28"]
        for months in [0, 1, 3, 6, 12, 18, 24]
    ],
    "events": [event(found) for found in calendar.walk("VEVENT")],
}
(HERE / "study.json").write_text(json.dumps(answers, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
