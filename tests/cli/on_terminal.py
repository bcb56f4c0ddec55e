"""What a program writes to a terminal."""
import fcntl
import os
import pty
import struct
import subprocess
import termios


def on_terminal(argv, environment, columns=None):
    """`columns`: how wide the terminal is; None: it does not say. The program must end well."""
    reader, terminal = pty.openpty()
    if columns is not None:
        fcntl.ioctl(terminal, termios.TIOCSWINSZ, struct.pack("HHHH", 40, columns, 0, 0))
    p = subprocess.Popen(argv, stdout=terminal, stderr=subprocess.PIPE, env=environment)
    os.close(terminal)
    said = b""
    while True:
        try:
            piece = os.read(reader, 65536)
        except OSError:
            break
        if not piece:
            break
        said += piece
    assert p.wait() == 0, p.stderr.read()
    os.close(reader)
    return said.replace(b"\r\n", b"\n").decode()
