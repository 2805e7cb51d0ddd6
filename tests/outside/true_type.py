"""The few tables of a TrueType program that the rules of fonts ask for (OpenType specification: head, hhea, hmtx, loca)."""
import struct


class TrueType:
    def __init__(self, program):
        count = struct.unpack_from(">H", program, 4)[0]
        self.tables = {}
        for place in range(count):
            tag, _, offset, length = struct.unpack_from(">4sIII", program, 12 + 16 * place)
            self.tables[tag.decode()] = program[offset:offset + length]
        self.units = struct.unpack_from(">H", self.tables["head"], 18)[0]
        self.long_offsets = struct.unpack_from(">h", self.tables["head"], 50)[0]
        self.glyphs = struct.unpack_from(">H", self.tables["maxp"], 4)[0]
        self.measured = struct.unpack_from(">H", self.tables["hhea"], 34)[0]

    def advance(self, glyph):
        """Advance width in thousandths of the em; the last one serves all glyphs after it."""
        place = min(glyph, self.measured - 1)
        return struct.unpack_from(">H", self.tables["hmtx"], 4 * place)[0] * 1000 / self.units

    def is_drawn(self, glyph):
        """Whether the program has an outline for it."""
        if glyph >= self.glyphs:
            return False
        if self.long_offsets:
            start, end = struct.unpack_from(">II", self.tables["loca"], 4 * glyph)
        else:
            start, end = struct.unpack_from(">HH", self.tables["loca"], 2 * glyph)
        return end > start
