#include "coldtally/gs1.hpp"

#include <algorithm>

#include "coldtally/error.hpp"
#include "quantities/calendar.hpp"
#include "quantities/digits.hpp"
#include "standards/gs1_formats.hpp"
#include "text/json_text.hpp"

namespace coldtally {

namespace {

using standards::Gs1Format;
using Element = Gs1Scan::Element;

constexpr char separator = 0x1D;           // FNC1 as it is transmitted
constexpr std::size_t longest = 8192;      // no symbol holds so much
constexpr std::string_view identifiers[] = {"]C1", "]d2", "]Q3", "]e0",
                                            "]J1"};  // GS1-128, DataMatrix, QR Code, DataBar, DotCode
// After these, by their first two digits, no separator is needed: their length is predefined.
constexpr std::string_view predefined[] = {"00", "01", "02", "03", "11", "12", "13", "15", "16",
                                           "17", "20", "31", "32", "33", "34", "35", "36", "41"};
constexpr std::pair<std::string_view, std::string_view> titles[] = {
    {"00", "SSCC"},
    {"01", "GTIN"},
    {"02", "CONTENT"},
    {"10", "BATCH/LOT"},
    {"11", "PROD DATE"},
    {"13", "PACK DATE"},
    {"15", "BEST BEFORE or BEST BY"},
    {"16", "SELL BY"},
    {"17", "USE BY or EXPIRY"},
    {"20", "VARIANT"},
    {"21", "SERIAL"},
    {"30", "VAR. COUNT"},
    {"37", "COUNT"},
    {"240", "ADDITIONAL ID"},
    {"7003", "EXPIRY TIME"},
};

// Scanners end what they send with a line end, or a blank; a separator at the end says nothing.
std::string_view trimmed(std::string_view text) noexcept {
    constexpr std::string_view ends = " \t\r\n";
    const auto from = text.find_first_not_of(ends);
    return from == std::string_view::npos ? std::string_view()
                                          : text.substr(from, text.find_last_not_of(ends) - from + 1);
}

bool is_digit(char c) noexcept { return c >= '0' && c <= '9'; }
bool all_digits(std::string_view text) noexcept { return std::all_of(text.begin(), text.end(), is_digit); }

// From the right: 1 for the check digit, then 3, 1, 3 ...; the sum of a whole number is a multiple of 10.
bool check_digit_is_right(std::string_view digits) noexcept {
    int sum = 0, weight = 1;
    for (auto c = digits.rbegin(); c != digits.rend(); ++c, weight = 4 - weight) sum += weight * (*c - '0');
    return sum % 10 == 0;
}

bool in_set(char set, char c) noexcept {
    const bool upper = c >= 'A' && c <= 'Z', lower = c >= 'a' && c <= 'z';
    const auto among = [c](std::string_view more) { return more.find(c) != std::string_view::npos; };
    switch (set) {
        case 'N': return is_digit(c);
        case 'X': return is_digit(c) || upper || lower || among("!\"%&'()*+,-./:;<=>?_");
        case 'Y': return is_digit(c) || upper || among("#-/");
        default: return is_digit(c) || upper || lower || among("-_=");
    }
}

std::string set_words(char set) {
    switch (set) {
        case 'N': return "digits";
        case 'X': return "of the 82 characters of GS1";
        case 'Y': return "of the 39 characters of GS1";
        default: return "of A-Z, a-z, 0-9, -, _ and =";
    }
}

const Gs1Format* format_of(std::string_view ai) noexcept {
    if (!all_digits(ai)) return nullptr;
    for (const auto& f : standards::gs1_formats)
        if (f.first.size() == ai.size() && f.first <= ai && ai <= f.last)
            return ai.size() == 4 && ai >= "31" && ai < "37" && ai.back() > '5' ? nullptr : &f;
    return nullptr;
}

// Two digits of a year: of the hundred years from 49 before this one to 50 after it.
int full_year(int two_digits, int this_year) noexcept {
    const int ahead = two_digits - this_year % 100;
    const int century = this_year - this_year % 100;
    return century + two_digits + (ahead >= 51 ? -100 : ahead <= -50 ? 100 : 0);
}

int number(std::string_view text) { return digits::read(text, 0, text.size()); }

bool is_date(std::string_view yymmdd, bool day_00, int this_year) {
    const int year = full_year(number(yymmdd.substr(0, 2)), this_year), month = number(yymmdd.substr(2, 2)),
              day = number(yymmdd.substr(4, 2));
    return month >= 1 && month <= 12 && day >= (day_00 ? 0 : 1) && day <= calendar::days_in_month(year, month);
}

std::string expiry_of(std::string_view yymmdd, int this_year) {
    std::string out =
        std::to_string(full_year(number(yymmdd.substr(0, 2)), this_year)) + "-" + std::string(yymmdd.substr(2, 2));
    return yymmdd.substr(4) == "00" ? out : out + "-" + std::string(yymmdd.substr(4));
}

[[noreturn]] void refuse(const std::string& what) { throw Error(Code::bad_value, "scan: " + what); }
[[noreturn]] void refuse(std::size_t position, const std::string& what) {
    refuse("position " + std::to_string(position + 1) + ": " + what);
}

/// One part of a format: "N6,date0", "[X..17]".
struct Part {
    char set;
    std::size_t least, most;
    bool optional;
    std::string_view more;
};

Part take_part(std::string_view& format) {
    std::string_view word = format.substr(0, format.find(' '));
    format.remove_prefix(std::min(format.size(), word.size() + 1));
    Part out{};
    out.optional = word.front() == '[';
    if (out.optional) word = word.substr(1, word.size() - 2);
    const auto comma = std::min(word.find(','), word.size());
    out.more = word.substr(std::min(word.size(), comma + 1));
    out.set = word.front();
    std::string_view length = word.substr(1, comma - 1);
    const bool varies = length.starts_with("..");
    out.most = static_cast<std::size_t>(number(varies ? length.substr(2) : length));
    out.least = varies ? 1 : out.most;
    return out;
}

void check_value(const Element& e, std::size_t position, int this_year) {
    const auto wrong = [&](const std::string& must) {
        refuse(position, "(" + e.ai + ") " + text::quoted(e.value) + ": " + must);
    };
    std::string_view left = e.value, format = format_of(e.ai)->format;
    while (!format.empty()) {
        const Part part = take_part(format);
        if (part.optional && left.empty()) return;
        const std::string_view value = left.substr(0, part.most);
        left.remove_prefix(value.size());
        if (value.size() < part.least)
            wrong("is too short: must have " + std::to_string(part.least) +
                  (part.least < part.most ? " to " + std::to_string(part.most) : "") +
                  (part.set == 'N' ? " digits" : " characters") + (value.size() < e.value.size() ? " more" : ""));
        if (!std::all_of(value.begin(), value.end(), [&](char c) { return in_set(part.set, c); }))
            wrong("must be " + set_words(part.set));
        if (part.more == "csum" && !check_digit_is_right(value))
            wrong("its check digit is wrong: scan it again, or read the number from the box");
        if (part.more == "date" && !is_date(value, false, this_year)) wrong("must be a date, YYMMDD");
        if (part.more == "date0" && !is_date(value, true, this_year))
            wrong("must be a date, YYMMDD, with day 00 for a month's last");
        if (part.more == "time" && (number(value.substr(0, 2)) > 23 || number(value.substr(2)) > 59))
            wrong("must end in an hour and minute, hhmm");
    }
    if (!left.empty()) wrong("is too long by " + std::to_string(left.size()));
}

bool is_predefined(std::string_view ai) noexcept {
    return std::find(std::begin(predefined), std::end(predefined), ai.substr(0, 2)) != std::end(predefined);
}

/// How many characters a value of this identifier has; only where its length is predefined.
std::size_t predefined_length(std::string_view ai) {
    std::string_view format = format_of(ai)->format;
    return take_part(format).most;
}

class Scanner {
public:
    Scanner(std::string_view text, int this_year) : text_(trimmed(text)), this_year_(this_year) {}

    Gs1Scan read() {
        if (text_.empty() || text_.size() > longest)
            refuse("must be the text of a code, of 1 to " + std::to_string(longest) + " characters");
        for (const char c : text_)
            if (c != separator && (c < 0x20 || c > 0x7E)) refuse("holds a character that no GS1 code holds");
        if (text_.front() == ']') symbology();
        const std::size_t n = text_.size();
        if (const auto gtin = n >= 12 && n <= 14 ? gtin_14(text_) : std::nullopt)
            out_.elements.push_back({"01", "GTIN", *gtin});
        if (out_.elements.empty() && at_ < text_.size() && text_[at_] == '(')
            printed();
        else if (out_.elements.empty())
            transmitted();
        fill();
        return std::move(out_);
    }

private:
    void symbology() {
        const std::string_view id = text_.substr(0, 3);
        if (id == "]E0" || id == "]E4") {
            out_.symbology = id;
            const std::string_view digits = text_.substr(3);
            const std::size_t length = id == "]E0" ? 13 : 8;
            const auto gtin = digits.size() == length ? gtin_14(digits) : std::nullopt;
            if (!gtin)
                refuse(3, text::quoted(digits) + ": must be " + std::to_string(length) +
                              " digits with a right check digit");
            out_.elements.push_back({"01", "GTIN", *gtin});
            return;
        }
        if (std::find(std::begin(identifiers), std::end(identifiers), id) == std::end(identifiers))
            refuse(text::quoted(id) +
                   ": is not read here; what is read are the GS1 codes ]C1, ]d2, ]Q3, ]e0, ]J1, and ]E0, ]E4");
        out_.symbology = id;
        at_ = 3;
        if (at_ == text_.size()) refuse("the code is empty");
    }

    void transmitted() {
        if (text_[at_] == separator) ++at_;
        if (at_ == text_.size()) refuse("the code is empty");
        while (at_ < text_.size()) {
            const std::size_t start = at_;
            std::string ai;
            for (std::size_t n = 2; n <= 4 && ai.empty(); ++n)
                if (format_of(text_.substr(at_, n)) && text_.substr(at_, n).size() == n) ai = text_.substr(at_, n);
            if (ai.empty())
                refuse(start,
                       text::quoted(text_.substr(at_, 4)) + " begins with no application identifier that is assigned");
            at_ += ai.size();
            std::size_t end = std::min(text_.find(separator, at_), text_.size());
            if (is_predefined(ai)) end = std::min(end, at_ + predefined_length(ai));
            add(ai, std::string(text_.substr(at_, end - at_)), start);
            at_ = end;
            if (at_ < text_.size() && text_[at_] == separator) ++at_;
        }
    }

    void printed() {
        printed_ = true;
        while (at_ < text_.size()) {
            const std::size_t start = at_;
            const std::size_t close = text_.find(')', at_);
            const std::string ai(text_.substr(at_ + 1, close == std::string_view::npos ? 0 : close - at_ - 1));
            if (close == std::string_view::npos || ai.size() < 2 || ai.size() > 4 || !all_digits(ai))
                refuse(start, "must be an application identifier in brackets, such as (01)");
            if (!format_of(ai)) refuse(start, "(" + ai + "): is no application identifier that is assigned");
            std::string value;
            for (at_ = close + 1; at_ < text_.size() && text_[at_] != '('; ++at_) {
                if (text_.substr(at_, 2) == "\\(") ++at_;
                value += text_[at_];
            }
            add(ai, std::move(value), start);
        }
    }

    void add(const std::string& ai, std::string value, std::size_t position) {
        Element e{ai, "", std::move(value)};
        for (const auto& [of, title] : titles)
            if (of == ai) e.title = title;
        check_value(e, position, this_year_);
        for (const auto& before : out_.elements) {
            if (before.ai != ai) continue;
            if (before.value != e.value)
                throw Error(Code::contradiction, "scan: position " + std::to_string(position + 1) + ": (" + ai + ") " +
                                                     text::quoted(e.value) + ": stated before as " +
                                                     text::quoted(before.value));
            return;
        }
        out_.elements.push_back(std::move(e));
    }

    void fill() {
        for (const auto& e : out_.elements) {
            if (e.ai == "01" || (e.ai == "02" && !out_.gtin)) out_.gtin = e.value;
            if (e.ai == "10") out_.lot = e.value;
            if (e.ai == "21") out_.serial = e.value;
            if (e.ai == "17") out_.expiry = expiry_of(e.value, this_year_);
            if (e.ai == "7003") out_.expires_at_an_hour = true;
        }
        if (text_.find(separator) == std::string_view::npos && !printed_) look_for_lost_separators();
    }

    /// In a lot or serial number: a serial number, a lot, a date, a GTIN.
    void look_for_lost_separators() {
        for (const auto& e : out_.elements) {
            if (e.ai != "10" && e.ai != "21") continue;
            for (std::size_t i = 1; i + 3 <= e.value.size() && out_.perhaps.empty(); ++i) {
                const std::string_view ai = std::string_view(e.value).substr(i, 2),
                                       rest = std::string_view(e.value).substr(i + 2);
                const bool date = (ai == "11" || ai == "15" || ai == "17") && rest.size() >= 6 &&
                                  all_digits(rest.substr(0, 6)) && is_date(rest.substr(0, 6), true, this_year_);
                const bool gtin = ai == "01" && rest.size() >= 14 && gtin_14(rest.substr(0, 14));
                const bool number = ai == (e.ai == "10" ? "21" : "10");
                if (date || gtin || number)
                    out_.perhaps = e.value.substr(0, i) + " (" + std::string(ai) + ")" + std::string(rest);
            }
        }
    }

    std::string_view text_;
    int this_year_;
    std::size_t at_ = 0;
    bool printed_ = false;
    Gs1Scan out_;
};

}  // namespace

std::optional<std::string> gtin_14(std::string_view gtin) {
    const std::size_t n = gtin.size();
    if ((n != 8 && n != 12 && n != 13 && n != 14) || !all_digits(gtin) || !check_digit_is_right(gtin))
        return std::nullopt;
    return std::string(14 - n, '0') + std::string(gtin);
}

bool is_gs1_scan(std::string_view text) noexcept {
    text = trimmed(text);
    const auto letter = [](char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); };
    if (text.size() >= 3 && text[0] == ']' && letter(text[1]) && is_digit(text[2])) return true;
    if (text.starts_with('(') && text.find(')') < 6 && format_of(text.substr(1, text.find(')') - 1))) return true;
    if (text.find(separator) != std::string_view::npos) return true;
    return text.size() > 16 && text.starts_with("01") && all_digits(text.substr(0, 16)) &&
           check_digit_is_right(text.substr(2, 14));
}

Gs1Scan parse_gs1_scan(std::string_view text, int this_year) { return Scanner(text, this_year).read(); }

}  // namespace coldtally
