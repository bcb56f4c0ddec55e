// Calibration: what a probe's certificates make of what it indicates.
#pragma once

#include <vector>

#include "ledger/known.hpp"

namespace coldtally::trace {

/// Indicated + correction, rounded to 0.001 degree, halves away from zero: linear between the rows of the table,
/// constant beyond its ends. Never decreases as the indicated temperature increases.
std::int32_t corrected_by_table(const std::vector<Certificate::Row>& table, std::int32_t indicated);
inline std::int32_t corrected(const Certificate* certificate, std::int32_t indicated) {
    return certificate && certificate->correction && !certificate->correction->empty()
               ? corrected_by_table(*certificate->correction, indicated)
               : indicated;
}
/// Tolerance U, thousandths of a degree of the probe's scale.
std::int32_t tolerance(const Certificate* certificate);

class Calibration {
public:
    /// `known` must outlive this. `probe` may be unknown.
    Calibration(const ledger::Known& known, const std::string& probe);
    /// The certificate that holds at an instant; null where there is none.
    const Certificate* at(std::int64_t t) const;
    /// Does one certificate, or none, hold for all of [from, until]?
    bool constant(std::int64_t from, std::int64_t until) const { return at(from) == at(until); }

private:
    const std::vector<ledger::Dated<Certificate>>* certificates_ = nullptr;
    mutable std::size_t found_ =
        0;  // how many certificates are not later than the instant asked about last: most ask about the next
};

}  // namespace coldtally::trace
