"""Where a file can be changed, and the file with every change in it, each behind a switch (`mutation.hpp` has the
switches)."""
import re
from dataclasses import dataclass

TOKEN = re.compile(
    r'(?P<skip>\s+|//[^\n]*|/\*.*?\*/|\#(?:[^\n\\]|\\.)*)'
    r'|(?P<text>"(?:[^"\\\n]|\\.)*"|\'(?:[^\'\\\n]|\\.)*\')'
    r"|(?P<number>\d[\w']*(?:\.\w+)?)"
    r'|(?P<word>[A-Za-z_]\w*)'
    r'|(?P<sign>::|->|\+\+|--|<=>|<<=?|<=|>=|==|!=|&&|\|\||[-+*/%&|^]=|.)',
    re.S,
)
INFIX = {
    "<": ("<=", "Less"),
    "<=": ("<", "LessEqual"),
    ">": (">=", "Greater"),
    ">=": (">", "GreaterEqual"),
    "==": ("!=", "Equal"),
    "!=": ("==", "Unequal"),
    "+": ("-", "Plus"),
    "-": ("+", "Minus"),
}
SHAPE = {
    "Less": "<{}>",
    "LessEqual": "<{}>",
    "Greater": "<{}>",
    "GreaterEqual": "<{}>",
    "Equal": "=={}==",
    "Unequal": "=={}==",
    "Plus": "+{}+",
    "Minus": "-{}-",
}
OPEN, CLOSE = "([{", ")]}"
ASSIGN = {"=", "+=", "-=", "*=", "/=", "%=", "return"}
STATEMENT = re.compile(
    r"^\s+(?:\+\+|--)?(?!return\b|throw\b|break\b|continue\b|else\b|if\b|for\b|while\b|case\b|"
    r"using\b|const\b|auto\b|std::|template\b)"
    r"[a-z_]\w*(?:(?:\.|->|::)\w+|\[[^\]]*\])*(?:\(.*\)| (?:[-+*/]?=) .*)?;$"
)


@dataclass
class Token:
    kind: str
    text: str
    at: int
    line: int
    spaced: bool = False  # white space on both sides


@dataclass
class Point:
    """One mutant: the n-th such change on a line that says `text`; `again` counts the lines of the file that say the
    same."""

    file: str
    line: int
    text: str
    change: str
    nth: int = 1
    again: int = 1
    number: int = 0

    @property
    def key(self):
        return (
            f"{self.file}: {self.text}{f' (line {self.again} of this text)' if self.again > 1 else ''}: "
            f"{self.change}{f', place {self.nth}' if self.nth > 1 else ''}"
        )


def tokens(source):
    out, line = [], 1
    for m in TOKEN.finditer(source):
        if m.lastgroup != "skip":
            spaced = source[m.start() - 1 : m.start()].isspace() and source[m.end() : m.end() + 1].isspace()
            out.append(Token(m.lastgroup, m.group(), m.start(), line, spaced))
        line += m.group().count("\n")
    return out


def operand_left(t, i, stops):
    """Index of the first token of the operand that ends before token i."""
    depth = 0
    for k in range(i - 1, -1, -1):
        s = t[k].text
        if s in CLOSE:
            if s == "}" and depth == 0:
                return k + 1
            depth += 1
        elif s in OPEN:
            if depth == 0:
                return k + 1
            depth -= 1
        elif depth == 0 and (s in {",", ";", "?", ":"} or s in ASSIGN or s in stops):
            return k + 1
    return 0


def operand_right(t, i, stops):
    depth = 0
    for k in range(i + 1, len(t)):
        s = t[k].text
        if s in OPEN:
            depth += 1
        elif s in CLOSE:
            if depth == 0:
                return k - 1
            depth -= 1
        elif depth == 0 and (s in {",", ";", "?", ":"} or s in stops):
            return k - 1
    return len(t) - 1


def closing(t, i):
    depth = 0
    for k in range(i, len(t)):
        depth += (t[k].text in OPEN) - (t[k].text in CLOSE)
        if depth == 0:
            return k
    raise ValueError("no closing parenthesis")


class Mutated:
    """The points of one file. Those on a line that holds for the compiler (constexpr, static_assert, template), or that
    only makes room beforehand (reserve), take no switch; `skipped` counts them."""

    def __init__(self, file, source):
        self.file, self.source = file, source
        self.tokens = tokens(source)
        self.lines = source.split("\n")
        self.edits = []  # (point, [(token, what, order, text)...])
        self.skipped = 0
        self.find()
        self.name()

    def without_switch(self, line):
        return re.search(
            r"\bconstexpr\b|\bstatic_assert\b|^\s*template\b|\boperator\b|\.reserve\(", self.lines[line - 1]
        )

    def point(self, token, change, edits):
        if self.without_switch(token.line):
            self.skipped += 1
            return
        self.edits.append((Point(self.file, token.line, self.lines[token.line - 1].strip(), change), token.at, edits))

    def find(self):
        t = self.tokens
        for i, token in enumerate(t):
            s = token.text
            if s in INFIX and token.spaced and t[i - 1].text not in {"return", ",", "(", "operator"}:
                self.infix(i)
            elif s in {"&&", "||"} and token.spaced:
                self.and_or(i)
            elif s == "?" and token.spaced:
                a = operand_left(t, i, set())
                self.negated(token, "the condition of ?: is negated", a, i)
            elif s == "if" and t[i + 1].text == "(":
                self.condition_of_if(i)
            elif (
                token.kind == "number"
                and re.fullmatch(r"\d+", s)
                and self.file.endswith(".cpp")
                and t[i - 1].text != "["
            ):
                self.point(
                    token,
                    f"{s} becomes {int(s) + 1}",
                    [(i, "instead", 0, lambda n, s=s: f"::mutation::one_more({n}, {s})")],
                )
            elif s in {"min", "max"} and t[i - 1].text == "::" and t[i - 2].text == "std" and t[i + 1].text == "(":
                self.least_greatest(i)
        self.statements()

    def infix(self, i):
        token = self.tokens[i]
        other, name = INFIX[token.text]
        shape = SHAPE[name]
        self.point(
            token,
            f"{token.text} becomes {other}",
            [(i, "instead", 0, lambda n: shape.format(f" ::mutation::{name}{{{n}}} "))],
        )

    def and_or(self, i):
        t, s = self.tokens, self.tokens[i].text
        a, b = operand_left(t, i, {"||"} if s == "&&" else set()), operand_right(
            t, i, {"||", "&&"} if s == "&&" else {"||"}
        )
        on = "!= ::mutation::on({0}))"  # a condition that is all of this goes around it, hence its half
        self.point(
            t[i],
            f"{s} becomes {'||' if s == '&&' else '&&'}",
            [
                (a, "before", b - a, lambda n: "((((static_cast<bool>("),
                (i, "instead", 0, lambda n: f")){on.format(n)} {s} ((static_cast<bool>("),
                (b, "after", b - a, lambda n: f")){on.format(n)}){on.format(n)}"),
            ],
        )

    def negated(self, token, change, start, end):
        """The condition of the tokens from start to before end."""
        self.point(
            token,
            change,
            [
                (start, "before", end - 0.5 - start, lambda n: "(static_cast<bool>("),
                (end - 1, "after", end - 0.5 - start, lambda n: f") != ::mutation::on({n}))"),
            ],
        )

    def condition_of_if(self, i):
        t = self.tokens
        end = closing(t, i + 1)
        start = max([k + 1 for k in range(i + 2, end) if t[k].text == ";"], default=i + 2)
        if any(x.text == "=" for x in t[start:end]) and not any(x.text == "{" for x in t[start:end]):
            return
        self.negated(t[i], "the condition of if is negated", start, end)

    def least_greatest(self, i):
        s = self.tokens[i].text
        self.point(
            self.tokens[i],
            f"{s} becomes {'max' if s == 'min' else 'min'}",
            [
                (i - 2, "instead", 0, lambda n: ""),
                (i - 1, "instead", 0, lambda n: ""),
                (i, "instead", 0, lambda n: f"::mutation::{'Least' if s == 'min' else 'Greatest'}{{{n}}}"),
            ],
        )

    def statements(self):
        t = self.tokens
        first = {}
        last = {}
        for i, token in enumerate(t):
            first.setdefault(token.line, i)
            last[token.line] = i
        for line, text in enumerate(self.lines, 1):
            if (
                line in first
                and self.file.endswith(".cpp")
                and STATEMENT.match(text)
                and text.count("(") == text.count(")")
            ):
                a, b = first[line], last[line]
                if t[a - 1].text not in {";", "{", "}", ")", "else", ":"}:
                    continue
                self.point(
                    t[a],
                    "the statement is left out",
                    [
                        (a, "before", b - a + 1000, lambda n: f"{{ if (!::mutation::on({n})) {{ "),
                        (b, "after", b - a + 1000, lambda n: " } }"),
                    ],
                )

    def name(self):
        self.edits.sort(key=lambda e: (e[1], e[0].change))
        times, texts = {}, {}
        for p, _, _ in self.edits:
            lines = texts.setdefault(p.text, [])
            if p.line not in lines:
                lines.append(p.line)
            p.again = len(lines)
            times[(p.line, p.change)] = p.nth = times.get((p.line, p.change), 0) + 1

    @property
    def points(self):
        return [p for p, _, _ in self.edits]

    def switched(self, chosen):
        """The source with a switch at each of the points whose key is in `chosen` (key: number)."""
        before, after, instead = {}, {}, {}
        for p, _, edits in self.edits:
            if p.key not in chosen:
                continue
            n = chosen[p.key]
            for token, what, order, make in edits:
                if what == "instead":
                    instead[token] = make(n)
                else:
                    (before if what == "before" else after).setdefault(token, []).append((order, n, make(n)))
        out, end = [], 0
        for i, token in enumerate(self.tokens):
            out.append(self.source[end : token.at])
            out += [text for _, _, text in sorted(before.get(i, []), key=lambda x: (-x[0], -x[1]))]
            out.append(instead.get(i, token.text))
            out += [text for _, _, text in sorted(after.get(i, []), key=lambda x: (x[0], x[1]))]
            end = token.at + len(token.text)
        return "".join(out) + self.source[end:]
