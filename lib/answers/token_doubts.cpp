#include "answers/token_doubts.hpp"

#include <algorithm>

namespace coldtally::answers {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
/// Bytes of letters beyond ASCII count as letters.
bool is_letter(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || static_cast<unsigned char>(c) >= 0x80;
}

/// Runs of letters, runs of digits, and single other characters, in their order.
std::vector<std::string_view> runs_of(std::string_view token) {
    std::vector<std::string_view> out;
    for (std::size_t i = 0; i < token.size();) {
        std::size_t end = i + 1;
        const auto same = is_digit(token[i]) ? is_digit : is_letter;
        if (same(token[i]))
            while (end < token.size() && same(token[end])) ++end;
        out.push_back(token.substr(i, end - i));
        i = end;
    }
    return out;
}

int number(std::string_view digits) {
    int out = 0;
    for (const char c : digits) out = out * 10 + (c - '0');
    return out;
}

bool is_year(std::string_view d) { return d.size() == 4 && number(d) >= 1900 && number(d) <= 2099; }
bool is_month_and_day(std::string_view a, std::string_view b) {
    if (a.size() > 2 || b.size() > 2) return false;
    const int x = number(a), y = number(b);
    return x >= 1 && y >= 1 && ((x <= 12 && y <= 31) || (x <= 31 && y <= 12));
}

bool is_month_name(std::string_view word) {
    std::string lower;
    for (const char c : word) lower += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    static constexpr std::string_view names[] = {"jan", "feb", "mar", "apr", "may", "jun",
                                                 "jul", "aug", "sep", "oct", "nov", "dec"};
    return word.size() >= 3 && std::find(std::begin(names), std::end(names), std::string_view(lower).substr(0, 3)) != std::end(names);
}

/// 1960-04-12, 12/4/1960, 12.04.60, 19600412, 04121960.
bool has_date(const std::vector<std::string_view>& runs) {
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const auto r = runs[i];
        if (r.size() == 8 && is_digit(r[0]))
            if ((is_year(r.substr(0, 4)) && is_month_and_day(r.substr(4, 2), r.substr(6))) ||
                (is_year(r.substr(4)) && is_month_and_day(r.substr(0, 2), r.substr(2, 2))))
                return true;
        if (i > 0 && i + 1 < runs.size() && is_month_name(r) && is_digit(runs[i - 1][0]) && runs[i - 1].size() <= 2 &&
            is_digit(runs[i + 1][0]))
            return true;  // 3apr80
        if (i > 0 && i + 1 == runs.size() && r.size() == 6 && is_digit(r[0]) && is_letter(runs[i - 1][0]) &&
            runs[i - 1].size() <= 3 && i == 1 &&
            (is_month_and_day(r.substr(0, 2), r.substr(2, 2)) || is_month_and_day(r.substr(2, 2), r.substr(4, 2))))
            return true;  // initials and a date: BA030480
        if (i + 4 >= runs.size() || runs[i + 1] != runs[i + 3] ||
            std::string_view("-/._ ").find(runs[i + 1]) == std::string_view::npos)
            continue;
        const auto a = r, b = runs[i + 2], c = runs[i + 4];
        if (!is_digit(a[0]) || !is_digit(b[0]) || !is_digit(c[0])) continue;
        if ((is_year(a) && is_month_and_day(b, c)) || ((is_year(c) || c.size() == 2) && is_month_and_day(a, b)))
            return true;
    }
    return false;
}

/// Digits with nothing but what stands in telephone numbers between them, 7 to 15, in more than one group or after a
/// plus.
bool is_telephone(std::string_view token, const std::vector<std::string_view>& runs) {
    int digits = 0, groups = 0;
    for (const auto run : runs) {
        if (is_digit(run[0]))
            digits += static_cast<int>(run.size()), ++groups;
        else if (std::string_view("+()-./ ").find(run[0]) == std::string_view::npos)
            return false;
    }
    return digits >= 7 && digits <= 15 && (groups > 1 || token[0] == '+' || digits == 10);
}

bool is_word_of_records(std::string_view word) {
    std::string lower;
    for (const char c : word) lower += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    static constexpr std::string_view words[] = {"mrn", "mr",   "chart",   "record",    "rec",      "pid",     "ssn",
                                                 "nhs", "acct", "account", "insurance", "medicare", "medicaid"};
    return std::find(std::begin(words), std::end(words), lower) != std::end(words);
}

/// Digits alone, five or more, or after a word for such a number; or 123-45-6789.
bool is_record_number(const std::vector<std::string_view>& runs) {
    if (runs.size() == 1 && is_digit(runs[0][0])) return runs[0].size() >= 5;
    if (runs.size() == 5 && runs[1] == "-" && runs[3] == "-")
        return is_digit(runs[0][0]) && is_digit(runs[2][0]) && is_digit(runs[4][0]) && runs[0].size() == 3 &&
               runs[2].size() == 2 && runs[4].size() == 4;
    bool digits = false;
    for (const auto run : runs) digits = digits || is_digit(run[0]);
    return digits && (is_word_of_records(runs[0]) || runs[0] == "#");
}

bool has_vowel(std::string_view word) {
    return word.find_first_of("aeiouyAEIOUY") != std::string_view::npos ||
           std::any_of(word.begin(), word.end(), [](char c) { return static_cast<unsigned char>(c) >= 0x80; });
}

/// Words of letters alone; at their end at most a year that stands against a word, or after two words a short number.
bool is_name(std::vector<std::string_view> runs) {
    std::size_t least = 1;  // words that there must be
    if (runs.size() > 1 && is_digit(runs.back()[0])) {
        const auto tail = runs.back();
        runs.pop_back();
        if (tail.size() > 4) return false;
        if (!is_year(tail) || runs.back() == "-") least = 2;  // one word and a number is what tokens are made of
    }
    std::size_t words = 0, longest = 0;
    bool vowel = false;
    for (const auto run : runs) {
        if (!is_letter(run[0])) {
            if (std::string_view("-_.,'/ ").find(run[0]) == std::string_view::npos) return false;  // a digit, too
            continue;
        }
        words += run.size() >= 2;
        longest = std::max(longest, run.size());
        vowel = vowel || has_vowel(run);
    }
    return vowel && longest >= 3 && words >= least;
}

}  // namespace

std::vector<std::string> token_looks_like(std::string_view token) {
    std::vector<std::string> out;
    const auto runs = runs_of(token);
    if (runs.empty()) return out;
    if (token.find('@') != std::string_view::npos) out.emplace_back("an e-mail address");
    if (is_name(runs)) out.emplace_back("a name");
    if (has_date(runs)) out.emplace_back("a date of birth");
    if (out.empty() && is_telephone(token, runs)) out.emplace_back("a telephone number");
    if (out.empty() || out.back() == "a telephone number")
        if (is_record_number(runs)) out.emplace_back("a record number");
    return out;
}

std::string token_doubt(std::string_view token) {
    std::string what;
    for (const auto& one : token_looks_like(token)) what += (what.empty() ? "" : " or ") + one;
    if (what.empty()) return what;
    return "patient: the token looks like " + what +
           ": nothing is ever removed from a ledger. Take a token that only the chart can resolve, such as a number "
           "that is drawn for it; if this one was posted, take it back and ask who must be told";
}

}  // namespace coldtally::answers
