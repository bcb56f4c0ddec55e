// What the parser needs and this engine lacks, and a clock that stands still: it reads two digits of a year from now.
String.prototype.padStart = function (n, fill) { var s = String(this); while (s.length < n) s = fill + s; return s; };
var RealDate = Date, NOW = RealDate.UTC(2026, 6, 1);
Date = function (a, b, c) { return arguments.length === 0 ? new RealDate(NOW) : arguments.length === 1 ? new RealDate(a) : new RealDate(a, b, c); };
Date.UTC = RealDate.UTC;
var exports = {};
