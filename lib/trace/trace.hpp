// Trace: what is known of a place's temperature as a function of time.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "coldtally/exposure.hpp"
#include "trace/assignment.hpp"
#include "trace/calibration.hpp"
#include "trace/probe_readings.hpp"

namespace coldtally::trace {

/// A reading or a check, corrected; temperature and tolerance in thousandths of a degree of the scale.
struct Point {
    std::int64_t at = 0;
    std::int32_t value = 0;
    std::int32_t tolerance = 0;
    Scale scale = Scale::C;
};

struct CheckPoint {
    Point point;
    std::optional<std::int32_t> lowest, highest;  ///< since the check before, corrected; both or none
    EntryNumber entry = 0;
};

/// A check with a thermometer that had no valid certificate.
struct UnprovenCheck {
    std::int64_t at = 0;
    std::string probe;
    bool none = false;  ///< it had none; else its certificate had expired
};

/// Consecutive readings of one probe in one unbroken assignment under one certificate, no step longer than the place's
/// max_gap; stored in one block. Its extremes are known without decoding it.
struct Span {
    std::shared_ptr<const ProbeReadings> source;
    std::size_t block = 0, from = 0, until = 0;  ///< rows [from, until) of the block
    const Certificate* certificate = nullptr;
    std::int32_t tolerance = 0;
    Scale scale = Scale::C;
    std::int64_t first_at = 0, last_at = 0;
    std::int32_t first = 0, last = 0, lowest = 0, highest = 0;  ///< corrected
    bool joined = false;  ///< the time from last_at to the next span's first_at is logged, too

    Point first_point() const { return {first_at, first, tolerance, scale}; }
    Point last_point() const { return {last_at, last, tolerance, scale}; }
    /// Its readings, corrected; appends to `out`.
    void read(std::vector<Point>& out) const;
};

/// A stretch [from, until) of one class that no logger covers, judged by the checks at its two ends.
struct Part {
    std::int64_t from = 0, until = 0;
    Class kind = Class::unmonitored;
    const CheckPoint* earlier = nullptr;  ///< checked and bounded
    const CheckPoint* later = nullptr;    ///< a bounded part is judged by it alone
};

/// A range in whole thousandths of a degree of a scale.
struct Bounds {
    std::int64_t low = std::numeric_limits<std::int64_t>::min(), high = std::numeric_limits<std::int64_t>::max();
    Bounds() = default;
    Bounds(const Range& range, Scale scale);
    /// Is all of [lowest, highest] in range?
    bool hold(std::int64_t lowest, std::int64_t highest) const { return low <= lowest && highest <= high; }
    /// Is none of it?
    bool exclude(std::int64_t lowest, std::int64_t highest) const { return highest < low || high < lowest; }
};

class Trace {
public:
    /// What holds from `from` on; what it says of the time before means nothing. `asked_at`: the instant of the
    /// question; it decides between awaiting and unmonitored alone. Store and known must outlive this. `keep_readings`:
    /// no block of readings is decoded twice, at 16 bytes a reading.
    Trace(const ledger::Store& store, const ledger::Known& known, const std::string& place, std::int64_t from,
          std::int64_t asked_at, const std::vector<Assignment>& assignments, bool keep_readings = false);
    Trace(const Trace&) = delete;
    Trace& operator=(const Trace&) = delete;

    const std::vector<Span>& spans() const { return spans_; }         ///< ascending
    const std::vector<CheckPoint>& checks() const { return checks_; } ///< ascending, one an instant
    const std::vector<UnprovenCheck>& unproven_checks() const { return unproven_; }  ///< ascending
    const std::vector<Part>& parts() const { return parts_; }         ///< all time that is not logged, ascending
    /// Index of the first span that ends at or after t; of the first part that ends after t; of the first check at or
    /// after t.
    std::size_t span_at(std::int64_t t) const;
    std::size_t part_at(std::int64_t t) const;
    std::size_t check_at(std::int64_t t) const;
    /// The instant of the last reading or check; none where there is none.
    std::optional<std::int64_t> last() const;
    /// Does a logged or checked part begin at t?
    bool line_begins(std::int64_t t) const;

private:
    /// A reading or check that is not out of the place's range speaks for the time within `seconds` of it.
    struct Near {
        std::int64_t seconds = 0;
        Bounds C, F;
        bool speaks(std::int32_t lowest, std::int32_t highest, Scale scale) const {
            return (scale == Scale::C ? C : F).hold(lowest, highest);
        }
    };
    void add_spans(const Assignment& a, std::shared_ptr<const ProbeReadings> readings, Scale scale,
                   std::int64_t max_gap);
    void add_checks(const ledger::Store& store, const std::string& place, std::int64_t near);
    void add_parts(std::int64_t max_check_gap, const Near& near, std::int64_t asked_at, std::int64_t stale_after);
    /// Where [from, until), of which neither loggers nor checks say anything, is near; ascending, none touching
    /// another.
    std::vector<std::pair<std::int64_t, std::int64_t>> near_within(const Near& near, std::int64_t from,
                                                                   std::int64_t until) const;

    const ledger::Known& known_;
    std::int64_t from_;
    std::vector<Span> spans_;
    std::vector<CheckPoint> checks_;
    std::vector<UnprovenCheck> unproven_;
    std::vector<Part> parts_;
};

}  // namespace coldtally::trace
