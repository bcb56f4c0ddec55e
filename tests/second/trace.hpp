// Second implementation, for tests only: what is known of a place's temperature, and from what.
#pragma once

#include "number.hpp"

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace second {

struct Probe {
    std::string probe;
    Scale scale = Scale::C;
};

struct Certificate {
    std::int64_t entry = 0;
    std::string probe;
    Instant at = 0;
    std::vector<std::pair<Rational, Rational>> correction;  // (indicated, correction), indicated ascending
    Rational tolerance = 0;                                 // in the probe's scale
};

/// No place: the probe is taken out of where it is.
struct Assign {
    std::int64_t entry = 0;
    std::string probe;
    Instant at = 0;
    std::optional<std::string> place;
};

/// As indicated, in the scale of its probe.
struct Reading {
    std::string probe;
    Instant at = 0;
    Rational temperature;
};

/// min and max: both or none.
struct Check {
    std::int64_t entry = 0;
    std::string place;
    Instant at = 0;
    Scale scale = Scale::C;
    Rational temperature;
    std::optional<Rational> min, max;
    std::optional<std::string> probe;
};

struct Place {
    std::string place;
    Range range;
    std::int64_t max_gap_s = 3600;
    std::int64_t max_check_gap_s = 64800;
    std::int64_t near_s = 1800;
};

/// All that is known of temperatures; entries that are voided or not yet known are not among it. Any order.
struct Records {
    std::vector<Probe> probes;
    std::vector<Certificate> certificates;
    std::vector<Assign> assigns;
    std::vector<Reading> readings;
    std::vector<Check> checks;
    std::int64_t stale_after_s = 86400;
};

/// A corrected reading or check, in its own scale, with the tolerance it is judged with.
struct Sample {
    Instant at = 0;
    Scale scale = Scale::C;
    Rational temperature;
    Rational tolerance;
};

struct ReadingSample : Sample {
    std::size_t spell = 0;  // the unbroken assignment it belongs to
};

struct CheckSample : Sample {
    std::optional<Rational> min, max;
};

/// The readings that count for one place and its checks, ascending, one of each an instant at most.
struct Trace {
    std::vector<ReadingSample> readings;
    std::vector<CheckSample> checks;
    std::int64_t max_gap_s = 0;
    std::int64_t max_check_gap_s = 0;
    std::int64_t near_s = 0;
    Range range;  // the place's own
    std::int64_t stale_after_s = 0;
    Instant A = 0;  // the instant the question is asked for
};

/// std::invalid_argument: a reading of an unknown probe, two unequal readings of one probe at one instant,
/// a check in another scale than that of its probe.
Trace trace_of(const Records& records, const Place& place, Instant A);

enum class Class { logged, bounded, checked, near, awaiting, unmonitored };

/// The straight line between two samples, in one scale.
struct Line {
    Scale scale = Scale::C;
    Rational t0, t1;                  // instants
    Rational v0, v1;                  // temperatures there
    Rational tolerance0, tolerance1;  // of each
};

/// A stretch [from, until) of positive length, of one class, without a reading or check inside.
struct Piece {
    Rational from, until;
    Class cls = Class::unmonitored;
    Line line;               // logged, checked
    CheckSample later;       // bounded: the check that judges it
};

/// [from, until) piece by piece, without gaps.
std::vector<Piece> pieces(const Trace& trace, const Rational& from, const Rational& until);

/// The line's temperature at an instant, in the line's scale.
Rational value_at(const Line& line, const Rational& t);
/// The instant strictly between a and b at which a line that is not flat takes the value, if there is one.
std::optional<Rational> crossing(const Line& line, const Rational& a, const Rational& b, const Rational& value);

}  // namespace second
