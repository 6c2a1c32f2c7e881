#!/usr/bin/python3
"""Draws icon.png, for phones that take no SVG: the drawing of icon.svg on all of its square, since they round the
corners themselves.   usage: icon.py icon.png"""
import struct
import sys
import zlib

SIZE, VIEW = 512, 32
BROWN, PAPER = (0x7A, 0x3B, 0x00), (0xFB, 0xFA, 0xF7)
SHADES = 16  # from one to the other, along the strokes' edges
HALF = 1.25  # of a stroke
LINES = [(8, 5, 8, 23), (8, 23, 24, 23), (24, 23, 24, 5), (8, 23, 8, 27), (24, 23, 24, 27),
         (12, 11, 20, 11), (20, 11, 20, 19), (20, 19, 12, 19), (12, 19, 12, 11)]
JOINED = {(8, 23), (24, 23), (12, 11), (20, 11), (20, 19), (12, 19)}  # where strokes meet, they fill the corner


def boxes():
    """What each stroke, along an axis, covers."""
    for x, y, to_x, to_y in LINES:
        low, high = sorted([(x, y), (to_x, to_y)])
        lies = low[1] == high[1]
        ends = [HALF if end in JOINED else 0 for end in (low, high)]
        yield ((low[0] - ends[0], low[1] - HALF, high[0] + ends[1], high[1] + HALF) if lies
               else (low[0] - HALF, low[1] - ends[0], high[0] + HALF, high[1] + ends[1]))


def covered(at, low, high):
    """How much of the pixel from `at` on lies between, of 1."""
    step = VIEW / SIZE
    return max(0, min(at + step, high) - max(at, low)) / step


def rows():
    strokes = list(boxes())
    for j in range(SIZE):
        y = j * VIEW / SIZE
        across = [(covered(y, b[1], b[3]), b[0], b[2]) for b in strokes if covered(y, b[1], b[3]) > 0]
        shades = [round((SHADES - 1) * max((down * covered(i * VIEW / SIZE, low, high) for down, low, high in across), default=0))
                  for i in range(SIZE)]
        yield b"\0" + bytes(a << 4 | b for a, b in zip(shades[::2], shades[1::2]))


def chunk(name, data):
    return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))


palette = bytes(round(b + (p - b) * k / (SHADES - 1)) for k in range(SHADES) for b, p in zip(BROWN, PAPER))
with open(sys.argv[1], "wb") as file:
    file.write(b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", SIZE, SIZE, 4, 3, 0, 0, 0)) +
               chunk(b"PLTE", palette) + chunk(b"IDAT", zlib.compress(b"".join(rows()), 9)) + chunk(b"IEND", b""))
