"""No function is longer than 80 lines, from the first line of its head to its closing brace: what is longer says
several things at once. A table at namespace level is no function; a docstring, as a comment before a function, is no
line of it.

Usage: functions_test.py SOURCE_DIR"""
import ast
import pathlib
import re
import sys

MOST = 80
FOLDERS = ("lib", "include", "cli", "bindings", "tests")
# what is no code is one token each, so that no brace in it counts; a line of the preprocessor goes on after a backslash
TOKEN = re.compile(
    r"""(?P<skip>//[^\n]*|/\*.*?\*/|^[ \t]*\#(?:[^\n\\]|\\.)*)
      |(?P<text>(?:u8|[uUL])?R"(?P<mark>[^(\s]*)\(.*?\)(?P=mark)"|"(?:[^"\\]|\\.)*"|(?<![0-9a-fA-F])'(?:[^'\\]|\\.)*')
      |(?P<word>[A-Za-z_]\w*|[0-9][\w']*)
      |(?P<sign>->|::|<=>|[=!<>]=|&&|\S)""",
    re.X | re.S | re.M,
)
CLASSES = ("class", "struct", "union", "enum")
BEHIND_A_HEAD = ("const", "noexcept", "override", "final", "mutable", "try", "&", "&&")


def tokens_of(text):
    """Pairs of a token and its line; a literal is one token, a quote."""
    line = 1
    at = 0
    for m in TOKEN.finditer(text):
        line += text.count("\n", at, m.start())
        at = m.start()
        if m["text"]:
            yield '"', line
        elif not m["skip"]:
            yield m[0], line


def without_template(words):
    """A head without the template <...> before it."""
    while words[:1] == ["template"]:
        depth = 0
        for i, word in enumerate(words[1:], 1):
            depth += (word == "<") - (word == ">")
            if depth == 0:
                break
        words = words[i + 1 :]
    return words


def outside_parentheses(words):
    depth = 0
    for word in words:
        depth -= word in (")", "]")
        if depth == 0:
            yield word
        depth += word in ("(", "[")


def opened_by(words):
    """What a brace opens that stands behind these words of its statement, where no function is around it."""
    words = without_template(words)
    outside = list(outside_parentheses(words))
    if "namespace" in words[:2] or words[:1] == ["extern"] and words[1:] == ['"']:
        return "scope"
    if any(word in CLASSES for word in words[:2]) and "(" not in words:
        return "scope"
    is_operator = "operator" in outside
    if "(" not in words or words.count("(") != words.count(")") or "=" in outside and not is_operator:
        return "value"
    # of a constructor's members, a{1} is a value, and the body stands behind a parenthesis or a brace
    if ":" in outside and words[-1] not in (")", "}", "try"):
        return "value"
    if words[-1] in (")", "}") or words[-1] in BEHIND_A_HEAD or "->" in outside or "requires" in outside:
        return "function"
    return "value"


def lambda_start(before):
    """The place of the [ of the lambda whose body follows these tokens, or none."""
    i = len(before) - 1
    for k in range(i, max(i - 30, -1), -1):  # -> std::optional<Rational>
        if before[k][0] == "->":
            i = k - 1
            break
        if not re.match(r"\w|::|[<>,*&]$", before[k][0]):
            break
    while i >= 0 and before[i][0] in BEHIND_A_HEAD:
        i -= 1
    for close, opening in ((")", "("), ("]", "[")):
        if i < 0 or before[i][0] != close:
            continue
        depth = 0
        while i >= 0:
            depth += (before[i][0] == close) - (before[i][0] == opening)
            i -= 1
            if depth == 0:
                break
        if close == "]":
            # behind a name it is the bound of a table
            return None if i >= 0 and re.match(r"\w|[\])]", before[i][0]) else i + 1
    return None


def functions_of_cpp(text):
    """(first line, last line) of each function that stands in no other."""
    tokens = list(tokens_of(text))
    found = []
    opened = []  # (what, first line)
    statements = [[]]  # of each open scope or value, the tokens of the statement so far
    inside = 0  # braces that are open in a function
    for i, (word, line) in enumerate(tokens):
        if inside:
            inside += (word == "{") - (word == "}")
            if not inside:
                what, first = opened.pop()
                found.append((first, line))
                if what == "function":
                    statements[-1] = []
                else:
                    statements[-1].append((word, line))
            continue
        if word == "{":
            start = lambda_start(tokens[max(0, i - 400) : i])
            head = statements[-1]
            what = "value" if opened and opened[-1][0] == "value" else opened_by([w for w, _ in head])
            if start is not None and what == "value":
                opened.append(("lambda", tokens[max(0, i - 400) + start][1]))
                inside = 1
            elif what == "function":
                opened.append((what, head[0][1]))
                inside = 1
            else:
                opened.append((what, line))
                statements.append([])
        elif word == "}":
            what, _ = opened.pop()
            statements.pop()
            statements[-1] = statements[-1] + [(word, line)] if what == "value" else []
        elif word == ";" or word == ":" and [w for w, _ in statements[-1]] in (["public"], ["private"], ["protected"]):
            statements[-1] = []
        else:
            statements[-1].append((word, line))
    if opened or inside:
        raise ValueError("a brace is left open, or this test does not understand the file")
    return found


def lines_of_docstring(node):
    first = node.body[0]
    if ast.get_docstring(node, clean=False) is None:
        return 0
    return first.end_lineno - first.lineno + 1


def functions_of_python(text):
    """(first line, last line) of each function, as if it had no docstring."""
    return [
        (min([node.lineno] + [d.lineno for d in node.decorator_list]), node.end_lineno - lines_of_docstring(node))
        for node in ast.walk(ast.parse(text))
        if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef))
    ]


def too_long(functions):
    return [(first, last) for first, last in functions if last - first + 1 > MOST]


def check_itself():
    """It finds what is too long, and nothing else, in what is written here."""
    lines = "    f(\"{\", '{', 1'000);  // {\n"

    def cpp(head, count, end="}\n"):
        return head + "\n" + lines * count + end

    most, more = MOST - 2, MOST - 1
    heads = [
        "int f(int a = 1) {",
        "template <class T = int> std::vector<T> f() const noexcept {",
        "C::C(int a) : a_(a), b_{1, 2}, c_{} {",
        "bool operator=(const C& c) {",
        "C(F f = [](int a) { return a; }, S s = {}) : f_{[] {}} {",
        "auto f() -> std::vector<int> {",
        'TEST_CASE("a } b", "[c]") {',
        "const auto f = [](int a) -> int {",
        "const std::vector<F> table = {F{1, 2}, {3, [&](int a) mutable {",
    ]
    for head in heads:
        end = "}}};\n" if "{3" in head else "};\n" if "auto f =" in head else "}\n"
        assert not too_long(functions_of_cpp(cpp(head, most, end))), head
        assert too_long(functions_of_cpp(cpp(head, more, end))) == [(1, MOST + 1)], head
        within = "namespace a {\nclass C : public B<int> {\npublic:\n" + cpp(head, more, end) + "};\n}\n"
        assert too_long(functions_of_cpp(within)) == [(4, MOST + 4)], head
    row = '    {1, "{", f(2), {3}},\n'
    for table in ("const std::vector<F> table = {\n", "constexpr F table[]{\n", "enum class E {\n", "struct S {\n"):
        assert not too_long(functions_of_cpp(table + row * 200 + "};\n")), table
    assert not too_long(functions_of_cpp('#define F(x) \\\n  {\nauto t = R"x(\n' + "{\n" * 200 + ')x";\n'))
    assert not too_long(functions_of_cpp("int f() {}\n" * 200))
    for docstring in ("", '    """Says\n\n    so."""\n'):
        assert not too_long(functions_of_python("def f():\n" + docstring + "    f()\n" * (MOST - 1)))
    assert too_long(functions_of_python("class C:\n    @f\n    def f():\n" + "        f()\n" * (MOST - 1)))


def main(root):
    check_itself()
    bad = []
    count = {".cpp": 0, ".hpp": 0, ".py": 0}
    for path in sorted(path for folder in FOLDERS for path in (root / folder).rglob("*")):
        if path.suffix not in count or not path.is_file():
            continue
        text = path.read_text(encoding="utf-8")
        try:
            functions = functions_of_python(text) if path.suffix == ".py" else functions_of_cpp(text)
        except (ValueError, IndexError) as error:
            bad.append(f"{path.relative_to(root)}: {error}")
            continue
        count[path.suffix] += len(functions)
        for first, last in too_long(functions):
            head = text.splitlines()[first - 1].strip()
            bad.append(
                f"{path.relative_to(root)}:{first}: {last - first + 1} lines; at most {MOST}: split it along what it"
                f" does: {head}"
            )
    if count[".cpp"] < 4000 or count[".hpp"] < 250 or count[".py"] < 500:
        bad.append(f"only {count} functions were looked at")
    print("\n".join(bad) or f"{count} functions")
    return 1 if bad else 0


sys.exit(main(pathlib.Path(sys.argv[1]).resolve()))
