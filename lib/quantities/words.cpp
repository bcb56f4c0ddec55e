#include "coldtally/quantities.hpp"

namespace coldtally {

namespace {

std::int64_t whole(const Rational& value, bool up) { return up ? value.ceil() : value.floor(); }

// A history handed over by another site may state any number; one beyond this is said to be beyond it.
constexpr std::int64_t longest_said = 1000LL * 366 * 86400;

}  // namespace

std::string duration_words(const Rational& seconds, bool up) {
    if (seconds.sign() < 0) return "-" + duration_words(-seconds, !up);
    if (seconds > Rational(longest_said)) return "more than 1000 years";

    const std::int64_t s = whole(seconds, up);
    if (s < 60) return std::to_string(s) + " s";
    if (s < 3600) return std::to_string(s / 60) + " min" + (s % 60 ? " " + std::to_string(s % 60) + " s" : "");

    const std::int64_t minutes = whole(seconds / Rational(60), up);
    std::int64_t hours = minutes / 60;
    std::string out;
    if (hours >= 48) {
        out = std::to_string(hours / 24) + " d";
        hours %= 24;
    }
    if (hours > 0) out += (out.empty() ? "" : " ") + std::to_string(hours) + " h";
    if (minutes % 60 > 0) out += " " + std::to_string(minutes % 60) + " min";
    return out;
}

}  // namespace coldtally
