"""H.264 slices taken apart and put into another picture (ITU-T H.264: 7.3.2.8, 7.3.3, 9.3).

A picture of the film in which little changes is made of slices: those of the region that changes, encoded by themselves
as a small picture, one slice for each of its rows of macroblocks, and between them slices that say "as before". A slice
refers to nothing outside itself but the picture before, so all that has to be said anew is where it begins and the
number of its frame.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

MACROBLOCK = 16
_SLICE, _IDR_SLICE, _SPS, _PPS = 1, 5, 7, 8
_P, _I = 0, 2  # slice_type modulo 5
_HEADER = 128  # bytes: no header of a slice is longer
_QP = 26  # of the slices that say "as before": nothing in them is quantised


class _Reader:
    """Bits of a payload, most significant first."""

    def __init__(self, data: bytes) -> None:
        self._value = int.from_bytes(data, "big")
        self._length = len(data) * 8
        self.at = 0

    def bits(self, count: int) -> int:
        self.at += count
        if self.at > self._length:
            raise ValueError("a slice ends within its header")
        return self._value >> (self._length - self.at) & ((1 << count) - 1)

    def ue(self) -> int:
        """An unsigned Exp-Golomb code (9.1)."""
        left = self._length - self.at
        zeros = left - (self._value & ((1 << left) - 1)).bit_length()
        return self.bits(2 * zeros + 1) - 1

    def se(self) -> int:
        code = self.ue()
        return (code + 1) // 2 if code % 2 else -(code // 2)


class _Writer:
    def __init__(self) -> None:
        self._value = 0
        self.length = 0

    def bits(self, value: int, count: int) -> None:
        self._value = self._value << count | value
        self.length += count

    def ue(self, value: int) -> None:
        self.bits(value + 1, 2 * (value + 1).bit_length() - 1)

    def aligned(self) -> bytes:
        """What was written, filled up with ones to a whole byte (cabac_alignment_one_bit)."""
        rest = -self.length % 8
        self.bits((1 << rest) - 1, rest)
        return self._value.to_bytes(self.length // 8, "big")


def units(data: bytes) -> list[bytes]:
    """The NAL units of a byte stream (annex B), without start codes."""
    found: list[bytes] = []
    at = data.find(b"\x00\x00\x01")
    while at >= 0:
        following = data.find(b"\x00\x00\x01", at + 3)
        unit = data[at + 3 : following if following >= 0 else len(data)]
        found.append(unit.rstrip(b"\x00") if following >= 0 else unit)
        at = following
    return found


def _payload(unit: bytes) -> bytes:
    """The payload of a unit without its emulation prevention bytes."""
    return unit[1:].replace(b"\x00\x00\x03", b"\x00\x00")


def _unit(head: int, payload: bytes) -> bytes:
    """A unit with its start code, and emulation prevention bytes put in (7.4.1)."""
    safe = bytearray()
    start, at = 0, payload.find(b"\x00\x00")
    while at >= 0:
        if at + 2 < len(payload) and payload[at + 2] <= 3:
            safe += payload[start : at + 2] + b"\x03"
            start = at + 2
            at = payload.find(b"\x00\x00", at + 2)
        else:
            at = payload.find(b"\x00\x00", at + 1)
    return b"\x00\x00\x00\x01" + bytes([head]) + bytes(safe) + payload[start:]


@dataclass(frozen=True, slots=True)
class Syntax:
    """What a stream's headers decide about the header of a slice."""

    frame_bits: int
    weighted: bool
    deblocking: bool
    references: int
    picture: bytes  # the picture parameter set

    @property
    def frames(self) -> int:
        """Frame numbers are counted modulo this."""
        return 1 << self.frame_bits


@lru_cache(maxsize=64)
def syntax(headers: bytes) -> Syntax:
    """Read stream headers. Raises ValueError where slices of such a stream cannot be put together."""
    sequence = picture = b""
    for unit in units(headers):
        if unit[0] & 31 == _SPS:
            sequence = unit
        elif unit[0] & 31 == _PPS:
            picture = unit
    bits = _Reader(_payload(sequence))
    profile = bits.bits(8)
    bits.bits(16)
    bits.ue()
    if profile in (100, 110, 122, 244):
        chroma, luma_depth, chroma_depth = bits.ue(), bits.ue(), bits.ue()
        if (chroma, luma_depth, chroma_depth) != (1, 0, 0) or bits.bits(2):
            raise ValueError("only 4:2:0 in 8 bits without scaling lists is known")
    frame_bits = bits.ue() + 4
    if bits.ue() != 2:
        raise ValueError("pictures are not shown in the order in which they are coded")
    bits = _Reader(_payload(picture))
    bits.ue(), bits.ue()
    cabac = bits.bits(1)
    if not cabac or bits.bits(1) or bits.ue():
        raise ValueError("only CABAC without slice groups is known")
    references = bits.ue() + 1
    bits.ue()
    weighted = bool(bits.bits(1))
    bits.bits(2)
    if bits.se() != 0:
        raise ValueError("the stream's first QP is not 26")
    bits.se(), bits.se()
    deblocking = bool(bits.bits(1))
    return Syntax(frame_bits, weighted, deblocking, references, picture)


def moved(unit: bytes, first: int, number: int, source: Syntax) -> bytes:
    """A slice as part of another picture: it begins at macroblock `first` and belongs to frame `number` of its group; 0
    is an IDR picture, and the slice one of intra macroblocks only."""
    kind, payload = unit[0] & 31, _payload(unit)
    bits, out = _Reader(payload[:_HEADER]), _Writer()
    bits.ue()
    out.ue(first)
    sort = bits.ue()
    out.ue(sort % 5)  # types of 5 and more promise that all slices of the picture are of one type
    out.ue(bits.ue())
    bits.bits(source.frame_bits)
    out.bits(number % source.frames, source.frame_bits)
    if kind == _IDR_SLICE:
        bits.ue()
    if number == 0:
        out.ue(0)
    start = bits.at
    if sort % 5 == _P:
        _skip_references(bits, source)
    if unit[0] >> 5 & 3:
        _copy(payload, start, bits.at, out)
        if kind == _IDR_SLICE:
            bits.bits(2)
        elif bits.bits(1):
            raise ValueError("a slice marks its references by itself")
        out.bits(0, 1 if number else 2)
        start = bits.at
    if sort % 5 == _P:
        bits.ue()
    bits.se()
    if source.deblocking and bits.ue() != 1:
        bits.se(), bits.se()
    _copy(payload, start, bits.at, out)
    return _unit(unit[0] & 0xE0 | (_SLICE if number else _IDR_SLICE), out.aligned() + payload[-(-bits.at // 8) :])


def _skip_references(bits: _Reader, source: Syntax) -> None:
    references = source.references
    if bits.bits(1):
        references = bits.ue() + 1
    if bits.bits(1):
        while bits.ue() != 3:
            bits.ue()
    if source.weighted:
        bits.ue(), bits.ue()
        for _ in range(references):
            if bits.bits(1):
                bits.se(), bits.se()
            if bits.bits(1):
                for _ in range(4):
                    bits.se()


def _copy(payload: bytes, start: int, end: int, out: _Writer) -> None:
    bits = _Reader(payload[:_HEADER])
    bits.bits(start)
    out.bits(bits.bits(end - start), end - start)


@lru_cache(maxsize=4096)
def as_before(first: int, count: int, number: int, source: Syntax) -> bytes:
    """A slice of `count` macroblocks from `first` on in which nothing changes."""
    out = _Writer()
    out.ue(first)
    out.ue(_P)
    out.ue(0)
    out.bits(number % source.frames, source.frame_bits)
    if source.references > 1:
        out.bits(1, 1)
        out.ue(0)  # the picture before and no other
    else:
        out.bits(0, 1)
    out.bits(0, 1)
    if source.weighted:
        out.ue(0)
        out.ue(0)
        out.bits(0, 2)
    out.bits(0, 1)
    out.ue(0)
    out.ue(0)
    if source.deblocking:
        out.ue(1)
    return _unit(2 << 5 | _SLICE, out.aligned() + _skipped(count))


@lru_cache(maxsize=4096)
def _skipped(count: int) -> bytes:
    """The slice data of `count` skipped macroblocks: for each mb_skip_flag 1 and end_of_slice_flag, coded as in 9.3.4.
    Only the more probable symbol is ever coded, so the lower bound of the interval stays where it is until the end."""
    state, width, shifts = _intervals(1 << count.bit_length())[count - 1]
    width -= _LESS_PROBABLE[state][width >> 6 & 3]
    if width < 256:
        width, shifts = width << 1, shifts + 1
    # The last macroblock ends the slice: the ten bits of the lower bound are written out (9.3.4.5), of which the last is
    # the stop bit; of all bits the first is never written (9.3.4.2).
    out = _Writer()
    out.bits(width - 2 | 1, shifts + 9)
    out.bits(0, -out.length % 8)
    return out.aligned()


@lru_cache(maxsize=32)
def _intervals(most: int) -> list[tuple[int, int, int]]:
    """The state of the coder after 0, 1 … `most` skipped macroblocks that do not end the slice: that of the flag's
    context, the interval's width, and how many bits it was shifted by."""
    state = ((23 * _QP >> 4) + 33) - 64  # table 9-13, ctxIdx 11, cabac_init_idc 0; its more probable symbol is 1
    width, shifts = 510, 0
    found = [(state, width, shifts)]
    for _ in range(most):
        width -= _LESS_PROBABLE[state][width >> 6 & 3]
        state = min(62, state + 1)
        if width < 256:
            width, shifts = width << 1, shifts + 1
        width -= 2
        if width < 256:
            width, shifts = width << 1, shifts + 1
        found.append((state, width, shifts))
    return found


# Table 9-44: the width of the less probable symbol, by state and by the second and third bit of the interval's width.
_LESS_PROBABLE = (
    (128, 176, 208, 240), (128, 167, 197, 227), (128, 158, 187, 216), (123, 150, 178, 205),
    (116, 142, 169, 195), (111, 135, 160, 185), (105, 128, 152, 175), (100, 122, 144, 166),
    (95, 116, 137, 158), (90, 110, 130, 150), (85, 104, 123, 142), (81, 99, 117, 135),
    (77, 94, 111, 128), (73, 89, 105, 122), (69, 85, 100, 116), (66, 80, 95, 110),
    (62, 76, 90, 104), (59, 72, 86, 99), (56, 69, 81, 94), (53, 65, 77, 89),
    (51, 62, 73, 85), (48, 59, 69, 80), (46, 56, 66, 76), (43, 53, 63, 72),
    (41, 50, 59, 69), (39, 48, 56, 65), (37, 45, 54, 62), (35, 43, 51, 59),
    (33, 41, 48, 56), (32, 39, 46, 53), (30, 37, 43, 50), (29, 35, 41, 48),
    (27, 33, 39, 45), (26, 31, 37, 43), (24, 30, 35, 41), (23, 28, 33, 39),
    (22, 27, 32, 37), (21, 26, 30, 35), (20, 24, 29, 33), (19, 23, 27, 31),
    (18, 22, 26, 30), (17, 21, 25, 28), (16, 20, 23, 27), (15, 19, 22, 25),
    (14, 18, 21, 24), (14, 17, 20, 23), (13, 16, 19, 22), (12, 15, 18, 21),
    (12, 14, 17, 20), (11, 14, 16, 19), (11, 13, 15, 18), (10, 12, 15, 17),
    (10, 12, 14, 16), (9, 11, 13, 15), (9, 11, 12, 14), (8, 10, 12, 14),
    (8, 9, 11, 13), (7, 9, 11, 12), (7, 9, 10, 12), (7, 8, 10, 11),
    (6, 8, 9, 11), (6, 7, 9, 10), (6, 7, 8, 9),
)  # fmt: skip


def picture(
    regions: Sequence[tuple[tuple[int, int, int, int], list[bytes]]], size: tuple[int, int], number: int, source: Syntax
) -> bytes:
    """A picture of `size` (columns and rows of macroblocks), frame `number` of its group: as the one before, but with
    other slices in each row of the regions, which do not meet (x, y, width, height in macroblocks)."""
    columns, rows = size
    placed: list[tuple[int, int, bytes]] = []
    for (x, y, w, h), units in regions:
        if len(units) != h:
            raise ValueError(f"{len(units)} slices for {h} rows")
        placed += [((y + row) * columns + x, w, unit) for row, unit in enumerate(units)]
    parts: list[bytes] = []
    at = 0
    for first, width, unit in sorted(placed):
        if first > at:
            parts.append(as_before(at, first - at, number % source.frames, source))
        parts.append(moved(unit, first, number, source))
        at = first + width
    if at < columns * rows:
        parts.append(as_before(at, columns * rows - at, number % source.frames, source))
    return b"".join(parts)


def of_picture(data: bytes) -> list[bytes]:
    """The slices of an encoded picture."""
    return [unit for unit in units(data) if unit[0] & 31 in (_SLICE, _IDR_SLICE)]
