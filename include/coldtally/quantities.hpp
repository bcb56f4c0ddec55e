// Quantities: the numbers a ledger is made of, each a type of its own, all exact.
#pragma once

#include <compare>
#include <concepts>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace coldtally {

/// An exact rational number. Small values are held in place; larger ones on the heap, shared and never changed.
/// A value type: copies are cheap, and safe to read from several threads.
class Rational {
public:
    Rational() noexcept = default;
    Rational(std::int64_t whole) noexcept : numerator_(whole) {}  // NOLINT: a whole number is a rational
    template <std::floating_point T>
    Rational(T) = delete;  // a binary fraction is not what was meant
    /// numerator/denominator; the denominator is not 0 (std::domain_error).
    Rational(std::int64_t numerator, std::int64_t denominator);

    /// "n" or "n/d", lowest terms, d > 1. Refused (Code::bad_value): anything else, "2/4" and "1/1" among it.
    static Rational parse(std::string_view text);
    /// "n" or "n/d" in lowest terms: the form of the answers.
    std::string text() const;

    bool is_whole() const noexcept;
    int sign() const noexcept;
    /// The largest whole number that is not above it; the smallest that is not below it.
    /// std::overflow_error where it does not fit 64 bits.
    std::int64_t floor() const;
    std::int64_t ceil() const;
    /// Nearest double; for plotting and comparison only, never for a decision.
    double to_double() const;

    friend Rational operator+(const Rational& a, const Rational& b);
    friend Rational operator-(const Rational& a, const Rational& b);
    friend Rational operator*(const Rational& a, const Rational& b);
    /// std::domain_error where b is 0.
    friend Rational operator/(const Rational& a, const Rational& b);
    Rational operator-() const { return Rational() - *this; }
    Rational& operator+=(const Rational& b) { return *this = *this + b; }
    Rational& operator-=(const Rational& b) { return *this = *this - b; }

    friend bool operator==(const Rational& a, const Rational& b);
    friend std::strong_ordering operator<=>(const Rational& a, const Rational& b);

private:
    struct Big;
    friend struct RationalAccess;
    std::int64_t numerator_ = 0;
    std::int64_t denominator_ = 1;  // > 0
    std::shared_ptr<const Big> big_;  // set where the two do not fit
};

/// A length of time in whole seconds.
class Duration {
public:
    constexpr Duration() noexcept = default;
    constexpr explicit Duration(std::int64_t seconds) noexcept : seconds_(seconds) {}
    constexpr std::int64_t seconds() const noexcept { return seconds_; }
    constexpr auto operator<=>(const Duration&) const noexcept = default;

private:
    std::int64_t seconds_ = 0;
};

/// A whole second of UTC. Two instants have a difference; they do not add.
class Instant {
public:
    constexpr Instant() noexcept = default;
    constexpr explicit Instant(std::int64_t seconds_since_1970) noexcept : seconds_(seconds_since_1970) {}
    constexpr std::int64_t seconds_since_1970() const noexcept { return seconds_; }
    constexpr auto operator<=>(const Instant&) const noexcept = default;
    friend constexpr Duration operator-(Instant a, Instant b) noexcept { return Duration(a.seconds_ - b.seconds_); }
    friend constexpr Instant operator+(Instant a, Duration d) noexcept { return Instant(a.seconds_ + d.seconds()); }
    friend constexpr Instant operator-(Instant a, Duration d) noexcept { return Instant(a.seconds_ - d.seconds()); }
    /// RFC 3339 in UTC: "2026-03-02T08:05:00Z".
    std::string text() const;

private:
    std::int64_t seconds_ = 0;
};

/// A date of the Gregorian calendar, 1970-01-01 to 2199-12-31 when parsed.
struct Date {
    int year = 1970;
    int month = 1;  ///< 1 to 12
    int day = 1;    ///< 1 to the month's last
    constexpr auto operator<=>(const Date&) const noexcept = default;
    /// "2027-05-31"; Code::bad_value for anything else.
    static Date parse(std::string_view text);
    /// "2027-05-31", or "2027-05", which means that month's last day.
    static Date parse_expiry(std::string_view text);
    std::string text() const;
    Date next() const;
};

/// An IANA time zone, read from the system's zone data when first named. A small handle; safe to share.
class Zone {
public:
    /// Code::bad_value where the system has no such zone.
    explicit Zone(const std::string& name);
    const std::string& name() const noexcept { return name_; }

    /// Seconds to add to UTC for the local clock.
    Duration offset_at(Instant t) const;
    /// The instant at which the local clock shows this; Code::bad_value where there is none, Code::ambiguous where
    /// there are two.
    Instant resolve(Date date, int hour, int minute, int second) const;
    /// All such instants, ascending: none, one or two.
    struct Candidates {
        int count = 0;
        Instant first, second;
    };
    Candidates candidates(Date date, int hour, int minute, int second) const;
    /// The first instant of the local day after `date`: where that midnight is skipped, the first that exists;
    /// where it occurs twice, the earlier.
    Instant end_of_day(Date date) const;
    /// "2026-03-02 08:05" of the local clock, with ":07" appended where the second is not 0.
    std::string local_text(Instant t) const;
    /// The date the local clock shows, and the seconds it shows since its midnight.
    struct Local {
        Date date;
        int second_of_day = 0;
    };
    Local local(Instant t) const;

private:
    struct Rules;
    std::string name_;
    std::shared_ptr<const Rules> rules_;
};

/// `YYYY-MM-DDTHH:MM:SS` with `Z`, an offset up to ±14:00, or nothing (then local in `zone`); years 1970 to 2199.
/// Code::bad_value: another form, a fraction other than zero, second 60, a local time that does not exist.
/// Code::ambiguous: one that occurs twice.
Instant parse_instant(std::string_view text, const Zone& zone);

enum class Scale : char { C = 'C', F = 'F' };
char scale_letter(Scale scale) noexcept;

/// A temperature as it was recorded: thousandths of a degree in its scale. Conversions are exact rationals.
class Temperature {
public:
    constexpr Temperature(Scale scale, std::int32_t thousandths) noexcept : thousandths_(thousandths), scale_(scale) {}
    /// `-?[0-9]+(\.[0-9]{1,3})?`. Code::bad_value: another form, or below -273.15 °C or above 1000 °C.
    static Temperature parse(std::string_view text, Scale scale);
    constexpr std::int32_t thousandths() const noexcept { return thousandths_; }
    constexpr Scale scale() const noexcept { return scale_; }
    /// C = (F - 32) * 5/9, exactly.
    Rational celsius() const;
    /// Shortest decimal of the degrees in its own scale: "4.2".
    std::string text() const;
    friend bool operator==(const Temperature&, const Temperature&) = default;

private:
    std::int32_t thousandths_;
    Scale scale_;
};

/// A difference of two temperatures of one scale (a correction, a tolerance), in thousandths of a degree of that scale.
class TemperatureDifference {
public:
    constexpr TemperatureDifference() noexcept = default;
    constexpr explicit TemperatureDifference(std::int32_t thousandths) noexcept : thousandths_(thousandths) {}
    /// The form of Temperature::parse; Code::bad_value beyond ±2300 degrees.
    static TemperatureDifference parse(std::string_view text);
    constexpr std::int32_t thousandths() const noexcept { return thousandths_; }
    std::string text() const;
    constexpr auto operator<=>(const TemperatureDifference&) const noexcept = default;

private:
    std::int32_t thousandths_ = 0;
};

/// A bound that a temperature is compared with, stated in C, in F, or in both (then each governs its own scale).
struct Limit {
    std::optional<Temperature> C;
    std::optional<Temperature> F;  ///< at least one of the two is there
    friend bool operator==(const Limit&, const Limit&) = default;
    /// Degrees in `scale`: the limit's own number there, else the exact conversion of the other.
    Rational in(Scale scale) const;
};

/// A closed range of temperature; a side that is left out does not bound.
struct Range {
    std::optional<Limit> low;
    std::optional<Limit> high;
    friend bool operator==(const Range&, const Range&) = default;
};

/// A whole number of doses.
class Doses {
public:
    constexpr Doses() noexcept = default;
    constexpr explicit Doses(std::int64_t count) noexcept : count_(count) {}
    constexpr std::int64_t count() const noexcept { return count_; }
    constexpr auto operator<=>(const Doses&) const noexcept = default;
    friend constexpr Doses operator+(Doses a, Doses b) noexcept { return Doses(a.count_ + b.count_); }
    friend constexpr Doses operator-(Doses a, Doses b) noexcept { return Doses(a.count_ - b.count_); }

private:
    std::int64_t count_ = 0;
};

/// As people say it: "45 s", "5 min 20 s", "3 h 20 min", "2 d 4 h"; whole seconds below one hour, whole minutes from
/// there, days from 48 hours on. `up`: rounded up (exposure, unknown time); else down (what is left, what is known). A
/// value that is not 0 is never said to be 0 when rounded up.
std::string duration_words(const Rational& seconds, bool up);

}  // namespace coldtally
