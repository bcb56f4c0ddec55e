#include "logger/lines.hpp"

#include <algorithm>
#include <cstring>

#include "logger/message.hpp"
#include "logger/table.hpp"
#include "text/utf16.hpp"
#include "text/utf8.hpp"

namespace coldtally::logger {

namespace {

constexpr std::size_t piece = 1u << 18;
constexpr std::size_t lines_of_block = 1024, bytes_of_block = 1u << 17;

bool is_ascii(std::string_view text) {
    std::size_t i = 0;
    for (; i + 8 <= text.size(); i += 8) {
        std::uint64_t eight;
        std::memcpy(&eight, text.data() + i, 8);
        if (eight & 0x8080808080808080u) return false;
    }
    for (; i < text.size(); ++i)
        if (static_cast<unsigned char>(text[i]) >= 0x80) return false;
    return true;
}

/// Is a text that comes in pieces UTF-8, and is a NUL in it?
class Utf8Check {
public:
    void add(std::string_view text) {
        nul_ = nul_ || text.find('\0') != std::string_view::npos;
        if (!valid_ || (rest_.empty() && is_ascii(text))) return;
        rest_ += text;
        // the last character may go on in the next piece
        std::size_t end = rest_.size();
        for (std::size_t back = 1; back <= 3 && back <= rest_.size(); ++back)
            if (const auto c = static_cast<unsigned char>(rest_[rest_.size() - back]); c >= 0xC0) {
                end -= back;
                break;
            } else if (c < 0x80) {
                break;
            }
        valid_ = text::valid_utf8(std::string_view(rest_).substr(0, end));
        rest_.erase(0, end);
    }
    bool valid() { return valid_ && text::valid_utf8(rest_); }
    bool nul() const { return nul_; }

private:
    std::string rest_;
    bool valid_ = true, nul_ = false;
};

}  // namespace

// its characters have the same numbers
void add_latin1(std::string_view text, std::string& out) {
    for (const char c : text) {
        const auto u = static_cast<unsigned char>(c);
        if (u < 0x80) {
            out += c;
        } else {
            out += static_cast<char>(0xC0 | (u >> 6));
            out += static_cast<char>(0x80 | (u & 0x3F));
        }
    }
}

std::uint64_t size_of(const LoggerFile& file) noexcept { return file.read ? file.size : file.content.size(); }

std::size_t read_at(const LoggerFile& file, std::uint64_t at, char* into, std::size_t size) {
    if (file.read) return file.read(at, into, size);
    if (at >= file.content.size()) return 0;
    const std::size_t n = std::min<std::size_t>(size, file.content.size() - at);
    std::memcpy(into, file.content.data() + at, n);
    return n;
}

/// Goes through the lines of a file from one of its bytes on.
class Lines::Scan {
public:
    Scan(const LoggerFile& file, Encoding encoding, std::uint64_t from) : file_(file), encoding_(encoding), at_(from) {}

    /// Where the next line begins.
    std::uint64_t at() const { return at_ + begin_; }
    /// Appends the next line, or the beginning of a long one; false at the end of the file. `number` is for messages.
    bool next(std::string& out, std::size_t number) {
        if (wide()) return next_wide(out, number);
        bool any = false;
        const std::size_t start = out.size();
        while (fill(1)) {
            any = true;
            const std::string_view seen(buffer_.data() + begin_, end_ - begin_);
            const auto stop = seen.find_first_of("\r\n");
            keep(seen.substr(0, stop), out, start);
            if (stop == std::string_view::npos) {
                begin_ = end_;
                continue;
            }
            const char c = seen[stop];
            begin_ += stop + 1;
            if (c == '\r' && fill(1) && buffer_[begin_] == '\n') ++begin_;
            break;
        }
        return any;
    }
    /// Given each piece of the text as it is read.
    Utf8Check* check = nullptr;

private:
    bool wide() const { return encoding_ == Encoding::utf16_little || encoding_ == Encoding::utf16_big; }

    bool fill(std::size_t least) {
        if (end_ - begin_ >= least) return true;
        if (buffer_.empty()) buffer_.resize(piece);
        std::memmove(buffer_.data(), buffer_.data() + begin_, end_ - begin_);
        at_ += begin_;
        end_ -= begin_;
        begin_ = 0;
        const std::size_t n = read_at(file_, at_ + end_, buffer_.data() + end_, buffer_.size() - end_);
        if (check && !wide()) check->add(std::string_view(buffer_.data() + end_, n));
        end_ += n;
        return end_ >= least;
    }

    void keep(std::string_view text, std::string& out, std::size_t start) const {
        const std::size_t kept = out.size() - start;
        if (kept > longest) return;
        text = text.substr(0, longest + 1 - kept);
        if (encoding_ == Encoding::latin1)
            add_latin1(text, out);
        else
            out += text;
    }

    bool next_wide(std::string& out, std::size_t number) {
        const bool little = encoding_ == Encoding::utf16_little;
        const std::size_t start = out.size();
        std::string raw;
        bool any = false, after_first = false;
        const auto decode = [&] {
            std::string text;
            const std::string why = text::utf16_to_utf8(raw, little, text);
            if (!why.empty())
                throw at_line(Code::bad_text, file_.name, static_cast<int>(number),
                              "is damaged UTF-16: " + why + "; have the logger write the file again");
            raw.clear();
            if (check) check->add(text);
            keep(text, out, start);
        };
        while (fill(1)) {
            any = true;
            if (!fill(2)) {  // a byte is left over
                raw += buffer_[begin_++];
                break;
            }
            const auto unit = [&] {
                const auto a = static_cast<unsigned char>(buffer_[begin_]),
                           b = static_cast<unsigned char>(buffer_[begin_ + 1]);
                return little ? a | b << 8 : b | a << 8;
            };
            const int c = unit();
            if (c == '\n' || c == '\r') {
                begin_ += 2;
                if (c == '\r' && fill(2) && unit() == '\n') begin_ += 2;
                break;
            }
            raw.append(buffer_.data() + begin_, 2);
            begin_ += 2;
            // of a long line a part, not between the two halves of a character
            after_first = c >= 0xD800 && c < 0xDC00;
            if (raw.size() >= piece && !after_first) decode();
        }
        decode();
        return any;
    }

    const LoggerFile& file_;
    Encoding encoding_;
    std::uint64_t at_;  // of the buffer's first byte
    std::string buffer_;
    std::size_t begin_ = 0, end_ = 0;
};

Lines::Lines(const LoggerFile& file) : file_(file) {
    char start[4] = {};
    const std::string_view first(start, read_at(file, 0, start, sizeof start));
    if (first == std::string_view("\xFF\xFE\0\0", 4))
        throw Error(Code::bad_text, file.name + ": is UTF-32, or begins with a NUL; save it as UTF-8 or UTF-16");
    std::uint64_t from = 0;
    if (first.starts_with("\xFF\xFE") || first.starts_with("\xFE\xFF")) {
        encoding_ = first[0] == '\xFF' ? Encoding::utf16_little : Encoding::utf16_big;
        from = 2;
    } else if (first.starts_with("\xEF\xBB\xBF")) {
        from = 3;
    }
    const auto bad = [&](const std::string& what) { return Error(Code::bad_text, file.name + ": " + what); };
    Utf8Check check;
    Scan scan(file, encoding_, from);
    scan.check = &check;
    std::string line;
    bool blank = true;
    std::size_t kept = 0;
    while (true) {
        const std::uint64_t at = scan.at();
        line.clear();
        if (!scan.next(line, count_ + 1)) break;
        blank = blank && is_blank(line);
        if (count_ == 0 || count_ - marks_.back().line == lines_of_block || kept >= bytes_of_block) {
            marks_.push_back({at, count_});
            kept = 0;
        }
        kept += line.size();
        ++count_;
    }
    if (check.nul())
        throw bad(
            "holds NUL bytes: no plain text, or UTF-16 (\"Unicode\") without a byte order mark; save it as UTF-8 "
            "or as plain CSV");
    if (!check.valid()) encoding_ = Encoding::latin1;
    if (blank) throw bad("is empty");
}

void Lines::load(std::size_t mark, Block& into) const {
    into.first = marks_[mark].line;
    into.lines = (mark + 1 < marks_.size() ? marks_[mark + 1].line : count_) - into.first;
    into.text.clear();
    into.ends.clear();
    Scan scan(file_, encoding_, marks_[mark].from);
    for (std::size_t i = 0; i < into.lines; ++i) {
        scan.next(into.text, into.first + i + 1);
        into.ends.push_back(into.text.size());
    }
}

std::string_view Lines::operator[](std::size_t i) const {
    const auto holds = [&](const Block& b) { return i >= b.first && i - b.first < b.lines; };
    if (!holds(blocks_[last_])) {
        std::size_t found = 0;
        while (found < blocks_.size() && !holds(blocks_[found])) ++found;
        if (found == blocks_.size()) {
            found = 0;
            for (std::size_t b = 1; b < blocks_.size(); ++b)
                if (blocks_[b].asked < blocks_[found].asked) found = b;
            const auto mark = std::upper_bound(marks_.begin(), marks_.end(), i,
                                               [](std::size_t line, const Mark& m) { return line < m.line; });
            load(static_cast<std::size_t>(mark - marks_.begin()) - 1, blocks_[found]);
        }
        last_ = found;
        blocks_[last_].asked = ++asked_;
    }
    const Block& b = blocks_[last_];
    const std::size_t k = i - b.first, from = k == 0 ? 0 : b.ends[k - 1];
    return std::string_view(b.text).substr(from, b.ends[k] - from);
}

}  // namespace coldtally::logger
