"""The record as a reader meets it, and small sheets to make one of: shared by the tests of the record."""

from html.parser import HTMLParser

from benchreckoner import project
from benchreckoner.bench.sheet import read_text

DEMO = project.CASES / "record_player.toml"
METERS = ('[[instrument]]\nname = "meter"\naccuracy = "0.5 % + 0.2 mV"\n'
          '[[instrument]]\nname = "ammeter"\naccuracy = "1 % + 1 mA"\n')
NASTY = '<script>alert("1")</script> \' & --> </style> ]]> <img src=x onerror=alert(1)>'


class Page(HTMLParser):
    """The page as a reader meets it: its text, tags and attributes, headings, sections and tables."""

    def __init__(self, text):
        super().__init__()
        self.tags, self.attributes, self.headings, self.tables = [], [], [], []
        self.sections, self._open, self._words = {"": ""}, [], []
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        self.tags.append(tag)
        self.attributes += [(tag, *pair) for pair in attributes]
        if tag == "table":
            self.tables.append({"caption": "", "rows": []})
        elif tag == "tr":
            self.tables[-1]["rows"].append([])
        elif tag in ("td", "th"):
            self.tables[-1]["rows"][-1].append("")
        if tag not in ("meta", "path", "use", "rect"):
            self._open.append(tag)
            if tag in ("h1", "h2", "h3"):
                self.headings.append([int(tag[1]), ""])
                if tag == "h2":
                    self.sections[len(self.sections)] = ""

    def handle_endtag(self, tag):
        if tag in self._open:
            while self._open.pop() != tag:
                pass

    def handle_data(self, text):
        if "style" in self._open:
            return
        text = text.replace("\u00a0", " ").replace("\u200e", "")
        last = list(self.sections)[-1]
        self.sections[last] += text
        if {"h1", "h2", "h3"} & set(self._open):
            self.headings[-1][1] += text
        if "caption" in self._open:
            self.tables[-1]["caption"] += text
        if {"td", "th"} & set(self._open) and "table" in self._open:
            self.tables[-1]["rows"][-1][-1] += text

    @property
    def text(self):
        return " ".join(" ".join(self.sections.values()).split())

    def section(self, heading):
        return next(" ".join(text.split()) for text in self.sections.values() if str(text).startswith(heading))

    def table(self, caption):
        captions = [" ".join(table["caption"].split()) for table in self.tables]
        wanted = caption if caption in captions else next(one for one in captions if one.startswith(caption))
        found = self.tables[captions.index(wanted)]
        return [[" ".join(cell.split()) for cell in row] for row in found["rows"]]

    def groups(self, caption):
        """A table's rows under each of its inner headings."""
        found, here = {}, None
        for row in self.table(caption)[1:]:
            here = found.setdefault(row[0], []) if len(row) == 1 else here
            if len(row) > 1:
                here.append(row)
        return found


def one_link(*, drop="40.0 mV", motor="7.96 V", more="", parts="", after=""):
    """A sheet with one spring between cells and motor, held at 1 A."""
    rows = [("cells", "voltage", "9.00 V", "off"), ("cells", "voltage", "8.00 V", "held"), ("motor", "voltage", motor, "held"),
            ("motor", "current", "1.000 A", "held"), ("spring", "voltage drop", drop, "held")]
    text = 'version = 1\n[machine]\nname = "Garden player"\n' + METERS
    text += ('[[part]]\nname = "cells"\nkind = "cells"\nchemistry = "alkaline"\ncount = 6\n'
             '[[part]]\nname = "spring"\nkind = "supply contact"\n' + parts + '[[part]]\nname = "motor"\nkind = "motor"\n')
    text += "".join(reading(*row) for row in rows)
    return read_text(text + more + after)


def reading(part, quantity, value, condition, stage="as found"):
    meter = "ammeter" if quantity == "current" else "meter"
    return (f'[[reading]]\npart = "{part}"\nquantity = "{quantity}"\nvalue = "{value}"\n'
            f'instrument = "{meter}"\nstage = "{stage}"\ncondition = "{condition}"\n')
