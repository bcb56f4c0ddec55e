#include "drafts/token_doubts.hpp"

#include <algorithm>
#include <string>

#include "words/drafts_limits.hpp"
#include "words/general.hpp"

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

std::string lower_case(std::string_view word) {
    std::string out;
    for (const char c : word) out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    return out;
}

template <std::size_t n>
bool is_one_of(const std::string_view (&words)[n], std::string_view word) {
    return std::find(std::begin(words), std::end(words), lower_case(word)) != std::end(words);
}

/// Three letters of a month or more: apr, Sept.
bool is_month_name(std::string_view word) {
    static constexpr std::string_view names[] = {"january", "february", "march",     "april",   "may",      "june",
                                                 "july",    "august",   "september", "october", "november", "december"};
    const std::string lower = lower_case(word);
    return word.size() >= 3 && std::any_of(std::begin(names), std::end(names),
                                           [&](std::string_view name) { return name.starts_with(lower); });
}

bool is_separator(std::string_view run) { return std::string_view("-/._, ").find(run) != std::string_view::npos; }

std::vector<std::string_view> without_separators(const std::vector<std::string_view>& runs) {
    std::vector<std::string_view> out;
    for (const auto run : runs)
        if (!is_separator(run)) out.push_back(run);
    return out;
}

/// A day and a month in letters, in either order, and a year: 3apr80, 03-Apr-1980, April 3, 1980.
bool has_named_month(const std::vector<std::string_view>& runs) {
    const auto parts = without_separators(runs);
    const auto is_day = [](std::string_view d) { return is_digit(d[0]) && d.size() <= 2; };
    const auto is_any_year = [](std::string_view d) { return is_digit(d[0]) && (d.size() == 2 || is_year(d)); };
    for (std::size_t i = 0; i + 2 < parts.size(); ++i)
        if (is_any_year(parts[i + 2]) && ((is_day(parts[i]) && is_month_name(parts[i + 1])) ||
                                          (is_month_name(parts[i]) && is_day(parts[i + 1]))))
            return true;
    return false;
}

/// Words that tokens are made of, capitalised or not; a choice of ours.
bool is_word_of_tokens(std::string_view word) {
    static constexpr std::string_view words[] = {"patient", "person", "client", "child",   "subject", "study",
                                                 "case",    "visit",  "token",  "invented", "demo",    "test",
                                                 "dose",    "ward",   "room",   "clinic"};
    return is_one_of(words, word);
}

/// Letters, or up to three and a separator, and a date in six digits: BA030480, BA-030480, p030480, BERGERA840312.
bool is_letters_and_date(const std::vector<std::string_view>& runs) {
    if (runs.size() < 2 || !is_letter(runs[0][0]) || is_word_of_tokens(runs[0])) return false;
    if (runs.size() > 2 && runs[0].size() > 3) return false;
    const auto d = runs.back();
    if (d.size() != 6 || !is_digit(d[0])) return false;
    if (runs.size() == 3 ? runs[0].size() == 1 || !is_separator(runs[1]) : runs.size() != 2) return false;
    return is_month_and_day(d.substr(0, 2), d.substr(2, 2)) || is_month_and_day(d.substr(2, 2), d.substr(4, 2));
}

/// 1960-04-12, 60-04-12, 12/4/1960, 12.04.60, 19600412, 04121960.
bool has_date(const std::vector<std::string_view>& runs) {
    if (has_named_month(runs) || is_letters_and_date(runs)) return true;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const auto r = runs[i];
        if (r.size() == 8 && is_digit(r[0]))
            if ((is_year(r.substr(0, 4)) && is_month_and_day(r.substr(4, 2), r.substr(6))) ||
                (is_year(r.substr(4)) && is_month_and_day(r.substr(0, 2), r.substr(2, 2))))
                return true;
        if (i + 4 >= runs.size() || runs[i + 1] != runs[i + 3] ||
            std::string_view("-/._ ").find(runs[i + 1]) == std::string_view::npos)
            continue;
        const auto a = r, b = runs[i + 2], c = runs[i + 4];
        if (!is_digit(a[0]) || !is_digit(b[0]) || !is_digit(c[0])) continue;
        const bool year_first = a.size() == 2 && b.size() == 2 && c.size() == 2 && number(b) <= 12;  // 80-04-03
        if (((is_year(a) || year_first) && is_month_and_day(b, c)) ||
            ((is_year(c) || c.size() == 2) && is_month_and_day(a, b)))
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
    static constexpr std::string_view words[] = {"mrn",    "chart",  "record",    "rec",      "pid",      "ssn",
                                                 "nhs",    "acct",   "account",   "medicare", "medicaid", "insurance",
                                                 "medrec", "policy", "member",    "ahv"};
    return is_one_of(words, word);
}

/// Digits alone, five or more; seven or more after a few letters; any after a word for such a number; or 123-45-6789.
bool is_record_number(const std::vector<std::string_view>& runs) {
    if (runs.size() == 1 && is_digit(runs[0][0])) return runs[0].size() >= 5;
    if (runs.size() == 5 && runs[1] == "-" && runs[3] == "-" && is_digit(runs[0][0]) && is_digit(runs[2][0]) &&
        is_digit(runs[4][0]) && runs[0].size() == 3 && runs[2].size() == 2 && runs[4].size() == 4)
        return true;
    const bool digits_last = is_digit(runs.back()[0]);
    if (digits_last && runs.back().size() >= 7 && is_letter(runs[0][0]) && runs[0].size() <= 3 &&
        (runs.size() == 2 || (runs.size() == 3 && is_separator(runs[1]))))
        return true;
    bool named = lower_case(runs[0]) == "mr" || runs[0] == "#";
    for (const auto run : runs) {
        if (named && is_digit(run[0])) return true;
        named = named || is_word_of_records(run);
    }
    return false;
}

bool has_vowel(std::string_view word) {
    return word.find_first_of("aeiouyAEIOUY") != std::string_view::npos ||
           std::any_of(word.begin(), word.end(), [](char c) { return static_cast<unsigned char>(c) >= 0x80; });
}

/// Words of letters alone; at their end at most a year that stands against a word, or after two words a short number.
bool is_name(std::vector<std::string_view> runs) {
    std::size_t least = 1;  // words that there must be
    bool of_year = false;   // beside which an initial is as good as a word
    if (runs.size() > 1 && is_digit(runs.back()[0])) {
        const auto tail = runs.back();
        runs.pop_back();
        if (tail.size() > 4) return false;
        of_year = is_year(tail);
        if (!is_year(tail) || runs.back() == "-") least = 2;  // one word and a number is what tokens are made of
    }
    std::size_t words = 0, longest = 0;
    bool vowel = false;
    for (const auto run : runs) {
        if (!is_letter(run[0])) {
            if (std::string_view("-_.,'/ ").find(run[0]) == std::string_view::npos) return false;  // a digit, too
            continue;
        }
        words += run.size() >= 2 || of_year;
        longest = std::max(longest, run.size());
        vowel = vowel || has_vowel(run);
    }
    return vowel && longest >= 3 && words >= least;
}

bool is_in_capitals(std::string_view word) {
    return std::ranges::all_of(word, [](char c) { return c >= 'A' && c <= 'Z'; });
}

/// "Berger", "JohnSmith", of capitals alone four or more: "BERGER".
bool is_capitalised(std::string_view word) {
    if (!is_letter(word[0]) || (word[0] >= 'a' && word[0] <= 'z') || !has_vowel(word)) return false;
    return word.size() >= (is_in_capitals(word) ? 4U : 3U);
}

/// A capitalised word beside what may be a year of birth, of four digits or two, wherever they stand: p-Berger-1980.
bool has_name_and_year(const std::vector<std::string_view>& runs) {
    const auto parts = without_separators(runs);
    const auto is_word = [](std::string_view part) { return is_capitalised(part) && !is_word_of_tokens(part); };
    const auto may_be_year = [](std::string_view part) {
        return is_digit(part[0]) && (is_year(part) || part.size() == 2);
    };
    for (std::size_t i = 0; i + 1 < parts.size(); ++i)
        if ((is_word(parts[i]) && may_be_year(parts[i + 1])) || (may_be_year(parts[i]) && is_word(parts[i + 1])))
            return true;
    return false;
}

/// Given names that lists of the most frequent ones have, shorter than what is_letters_and_year looks for or as long; a
/// choice of ours, without what is a word, too.
bool is_given_name(std::string_view word) {
    static constexpr std::string_view names[] = {
        "abby", "adam",  "alex", "amy",  "anna", "ann",  "anne", "beth", "bob",  "carl", "dan",  "dave", "emma", "eva",
        "evan", "fred",  "gary", "greg", "hans", "ian",  "ida",  "ivan", "jack", "jake", "jan",  "jane", "jean", "jeff",
        "jim",  "joan",  "joe",  "joel", "john", "jon",  "jose", "juan", "judy", "kate", "ken",  "kim",  "lara", "lea",
        "lee",  "leo",   "lily", "lisa", "liz",  "lucy", "luis", "luke", "mara", "mary", "max",  "meg",  "mia",  "mike",
        "nina", "noah",  "nora", "olga", "omar", "oscar", "otto", "owen", "paul", "pete", "rita", "rob", "ron",  "rosa",
        "ruth", "ryan",  "sam",  "sara", "sean", "steve", "sue", "susan", "ted", "tim",  "tina", "todd", "tom",  "tony",
        "zoe"};
    return is_one_of(names, word);
}

/// Four letters or more against a year of two digits or four, or initials against one of four: berger84, aberger1984,
/// AB1984.
bool is_letters_and_year(const std::vector<std::string_view>& runs) {
    if (runs.size() < 2 || !is_letter(runs[0][0]) || is_word_of_tokens(runs[0])) return false;
    if (runs.size() == 3 && is_separator(runs[1]))  // MJ-1984: of lower case it may be any code
        return is_year(runs[2]) && (runs[0].size() == 2 || runs[0].size() == 3) && is_in_capitals(runs[0]);
    if (runs.size() != 2) return false;
    if (runs[1].size() <= 2 && is_given_name(runs[0])) return true;
    const bool year = is_year(runs[1]);
    if (runs[0].size() < 4) return year && runs[0].size() >= 2;
    return has_vowel(runs[0]) && (year || runs[1].size() == 2);
}

/// Single letters, two or more, each with a full stop, or with one between them: B.J., b.j
bool is_initials(const std::vector<std::string_view>& runs) {
    if (runs.size() < 3) return false;
    for (std::size_t i = 0; i < runs.size(); ++i)
        if (i % 2 == 0 ? !is_letter(runs[i][0]) || runs[i].size() != 1 : runs[i] != ".") return false;
    return true;
}

/// Up to three letters, a month and a year of two digits: kv-04-83.
bool is_initials_and_month(const std::vector<std::string_view>& runs) {
    return runs.size() == 5 && is_letter(runs[0][0]) && runs[0].size() >= 2 && runs[0].size() <= 3 &&
           is_separator(runs[1]) && runs[1] == runs[3] && is_digit(runs[2][0]) && runs[2].size() == 2 &&
           number(runs[2]) >= 1 && number(runs[2]) <= 12 && is_digit(runs[4][0]) && runs[4].size() == 2;
}

}  // namespace

std::vector<Remark> token_looks_like(std::string_view token) {
    std::vector<Remark> out;
    const auto runs = runs_of(token);
    if (runs.empty()) return out;
    if (token.find('@') != std::string_view::npos) out.push_back(words::an_email_address());
    if (is_name(runs) || has_name_and_year(runs) || is_letters_and_year(runs) || is_initials(runs))
        out.push_back(words::a_name());
    if (has_date(runs) || is_initials_and_month(runs)) out.push_back(words::a_date_of_birth());
    if (out.empty() && is_telephone(token, runs)) out.push_back(words::a_telephone_number());
    if (out.empty() || out.back().is(words::a_telephone_number))
        if (is_record_number(runs)) out.push_back(words::a_record_number());
    return out;
}

std::optional<Remark> token_doubt(std::string_view token) {
    const auto like = token_looks_like(token);
    if (like.empty()) return std::nullopt;
    Remark what = like.front();
    for (std::size_t i = 1; i < like.size(); ++i) what = words::either(std::move(what), like[i]);
    return words::token_looks_like(std::move(what));
}

}  // namespace coldtally::answers
