"""The phrasebook says each thing once: a phrase's code is its name, no code and no text stands twice, and no file of
the library but the phrasebook's command-line side knows a command or an option.

Usage: phrases_test.py SOURCE_DIR"""
import collections
import pathlib
import re
import sys

root = pathlib.Path(sys.argv[1])
PHRASE = re.compile(r'Says<(\d+)> (\w+)\{\s*"([a-z0-9-]+)",\s*((?:"(?:[^"\\]|\\.)*"\s*)+)\}')
bad = []
texts, names = collections.defaultdict(list), collections.defaultdict(list)
for path in sorted(root.glob("lib/words/*.hpp")):
    if path.name == "phrase.hpp":
        continue
    source = path.read_text(encoding="utf-8")
    found = PHRASE.findall(source)
    if len(found) != source.count("Says<"):
        bad.append(f"{path.name}: {source.count('Says<')} phrases, of which {len(found)} are written as phrases are")
    for _, name, code, text in found:
        if name != code.replace("-", "_"):
            bad.append(f"{path.name}: {name} has the code {code}")
        names[code].append(path.name)
        texts["".join(re.findall(r'"((?:[^"\\]|\\.)*)"', text))].append(f"{path.name}: {name}")
bad += [f"the code {code} stands in {', '.join(where)}" for code, where in names.items() if len(where) > 1]
# the fields may have other names: the words are what must not stand twice
same = collections.defaultdict(set)
for text, where in texts.items():
    same[re.sub(r"\{\w+\}", "{}", text)].update(where)
# of what has no word of its own, the field's names tell what it is for
bad += [
    f"'{text}' is said by {', '.join(sorted(where))}"
    for text, where in same.items()
    if len(where) > 1 and re.search("[A-Za-z]", text)
]

# a command or an option in a text
COMMAND = re.compile(r'"[^"]*(?:(?<![\w-])--[a-z]|`[a-z]|\bcoldtally [a-z])[^"]*"')
for path in sorted(root.glob("lib/**/*.[ch]pp")):
    if path.relative_to(root).as_posix() in ("lib/words/shell.cpp", "lib/words/shell.hpp"):
        continue
    for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
        code = line.split("//")[0]
        if COMMAND.search(code) and "#include" not in code:
            bad.append(f"{path.relative_to(root)}:{number}: knows the command line: {line.strip()}")

for one in bad:
    print(one)
print(f"{len(names)} phrases")
sys.exit(1 if bad or len(names) < 500 else 0)
