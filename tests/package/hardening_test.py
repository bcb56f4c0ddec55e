"""What is installed has what the distribution's hardening flags give (dpkg-buildflags with hardening=+all), read by
binutils' readelf, and nothing of it asks for rights of another user.

Usage: hardening_test.py PROGRAM [MODULE]"""
import os
import re
import stat
import subprocess
import sys


def read(option, path):
    return subprocess.run(["readelf", "-W", option, path], capture_output=True, text=True, check=True).stdout


failed = []
for path in [word for word in sys.argv[1:] if word]:
    head, segments, dynamic, symbols = (read(o, path) for o in ("-h", "-l", "-d", "--dyn-syms"))
    stack = [line for line in segments.splitlines() if "GNU_STACK" in line]
    holds = {
        "position independent": "Type:" in head and "DYN (" in head,
        "relocations read-only": "GNU_RELRO" in segments and bool(re.search(r"BIND_NOW|Flags:.* NOW", dynamic)),
        "no relocation of code": "TEXTREL" not in dynamic,
        "no code on the stack": len(stack) == 1 and " RWE " not in stack[0],
        "stack protector": "__stack_chk_fail" in symbols,
        "checked calls of the C library": "_chk@" in symbols.replace("__stack_chk_fail@", ""),
        "no library looked for elsewhere": not re.search("RPATH|RUNPATH", dynamic),
        "no rights of another user": not os.stat(path).st_mode & (stat.S_ISUID | stat.S_ISGID),
    }
    failed += [f"{path}: not so: {what}" for what, is_so in holds.items() if not is_so]
print("\n".join(failed) or f"{len(sys.argv) - 1} files have all of it")
sys.exit(1 if failed else 0)
