#include <limits>

#include "coldtally/error.hpp"
#include "coldtally/quantities.hpp"
#include "text/json_text.hpp"
#include "text/limits.hpp"

namespace coldtally {

namespace {

/// Thousandths of `-?[0-9]+(\.[0-9]{1,3})?`; nothing where the form is another, or the number beyond a million degrees.
std::optional<std::int64_t> parse_thousandths(std::string_view text) {
    std::size_t i = 0;
    const bool negative = !text.empty() && text[0] == '-';
    if (negative) ++i;
    const std::size_t first = i;
    std::int64_t n = 0;
    for (; i < text.size() && text[i] >= '0' && text[i] <= '9'; ++i)
        if (n < 10'000'000) n = n * 10 + (text[i] - '0');
    if (i == first) return std::nullopt;
    n *= 1000;
    if (i < text.size()) {
        if (text[i] != '.') return std::nullopt;
        const std::size_t digits = text.size() - ++i;
        if (digits < 1 || digits > 3) return std::nullopt;
        for (std::int64_t unit = 100; i < text.size(); ++i, unit /= 10) {
            if (text[i] < '0' || text[i] > '9') return std::nullopt;
            n += (text[i] - '0') * unit;
        }
    }
    return negative ? -n : n;
}

std::string decimal(std::int64_t n) {
    const bool negative = n < 0;
    if (negative) n = -n;
    std::string out = (negative ? "-" : "") + std::to_string(n / 1000);
    if (n % 1000 != 0) {
        std::string fraction = std::to_string(1000 + n % 1000).substr(1);
        while (fraction.back() == '0') fraction.pop_back();
        out += '.' + fraction;
    }
    return out;
}

constexpr const char* form =
    "must be degrees with at most three fractional digits, as text (\"4.2\") or a whole number";

Error refuse(std::string_view text, const std::string& why) {
    return Error(Code::bad_value, text::quoted(text) + ": " + why);
}

}  // namespace

char scale_letter(Scale scale) noexcept { return static_cast<char>(scale); }

Temperature Temperature::parse(std::string_view text, Scale scale) {
    const auto n = parse_thousandths(text);
    if (!n) throw refuse(text, form);
    // -273.15 °C is -459.67 °F, 1000 °C is 1832 °F, both exactly
    const bool inside = scale == Scale::C ? *n >= limits::coldest_C && *n <= limits::hottest_C
                                          : *n >= limits::coldest_F && *n <= limits::hottest_F;
    if (!inside)
        throw refuse(text,
                     std::string("must be from ") + (scale == Scale::C ? "-273.15 to 1000 °C" : "-459.67 to 1832 °F"));
    return Temperature(scale, static_cast<std::int32_t>(*n));
}

Rational Temperature::celsius() const {
    if (scale_ == Scale::C) return Rational(thousandths_, 1000);
    return Rational((std::int64_t{thousandths_} - 32000) * 5, 9000);
}

std::string Temperature::text() const { return decimal(thousandths_); }

TemperatureDifference TemperatureDifference::parse(std::string_view text) {
    const auto n = parse_thousandths(text);
    if (!n) throw refuse(text, form);
    if (*n < -2'300'000 || *n > 2'300'000) throw refuse(text, "must be within ±2300 degrees");
    return TemperatureDifference(static_cast<std::int32_t>(*n));
}

std::string TemperatureDifference::text() const { return decimal(thousandths_); }

Rational Limit::in(Scale scale) const {
    if (scale == Scale::C) {
        if (C) return Rational(C->thousandths(), 1000);
        return F->celsius();
    }
    if (F) return Rational(F->thousandths(), 1000);
    return Rational(std::int64_t{C->thousandths()} * 9, 5000) + Rational(32);
}

}  // namespace coldtally
