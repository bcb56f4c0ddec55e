// Columns: readings as programs hold them, a column of times and a column of numbers, made exact or refused.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "coldtally/quantities.hpp"
#include "coldtally/words.hpp"

namespace coldtally {

/// Makes thousandths of a degree of degrees written in decimals, `-?[0-9]+(\.[0-9]+)?`. Without a resolution exactly:
/// digits beyond thousandths must be 0. With one, rounded to it, halves away from zero, and counted.
class DegreesColumn {
public:
    /// Code::bad_value for a resolution other than 1, 0.1, 0.01 and 0.001 degrees.
    explicit DegreesColumn(std::optional<TemperatureDifference> resolution);

    /// Thousandths of a degree; not held against what a thermometer can show. Code::bad_value: another form, digits
    /// that nothing says how to round, or a number beyond a million degrees; then it is not counted.
    std::int32_t read(std::string_view degrees);
    /// The same of a binary fraction: it stands for the shortest decimal that means it and no other number of its
    /// type, so that it means what its text would. Code::bad_value without a resolution, and where it is no number.
    std::int32_t read(double degrees);
    std::int32_t read(float degrees);

    /// How many were changed by rounding.
    std::int64_t rounded() const noexcept { return rounded_; }
    /// The largest of these changes in degrees, rounded up in its 18th decimal; 0 where there is none.
    Rational largest_change() const;

private:
    template <class Float>
    std::int32_t read_float(Float degrees);

    std::int32_t unit_ = 1;  // thousandths
    bool rounds_ = false;
    std::int64_t rounded_ = 0, largest_ = 0;  // of 1e-18 degrees
};

/// The instants of rows that show the time of a local clock.
struct LocalRows {
    std::vector<Instant> at;      ///< as many as there are rows, in their order
    std::vector<Remark> remarks;  ///< what was settled, each with its rows
};

/// `shown`: seconds since 1970 on a clock of `zone`, in the order in which they were logged, the oldest or the newest
/// first. Rows are named "rows[0]" and so on. As logger files are read: Code::bad_value for a time that the clock
/// skips; Code::ambiguous for one that it shows twice where the order of the rows does not settle which is meant, and
/// for rows that go back elsewhere.
LocalRows resolve_local_rows(const std::vector<std::int64_t>& shown, const Zone& zone);

}  // namespace coldtally
