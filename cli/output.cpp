#include "output.hpp"

#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>

#include "coldtally/error.hpp"

namespace coldtally::cli {

namespace {
constexpr std::size_t enough = 1 << 16;
}

void say_on_standard_error(const std::string& message, std::string line) {
    for (const char c : message) line += (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) ? ' ' : c;
    while (line.back() == ' ') line.pop_back();
    std::fprintf(stderr, "%s\n", line.c_str());
}

void Output::write(std::string_view bytes) {
    buffer_ += bytes;
    if (buffer_.size() >= enough) flush();
}

void Output::flush() {
    std::string_view rest = buffer_;
    while (!rest.empty()) {
        const ssize_t written = ::write(descriptor_, rest.data(), rest.size());
        if (written < 0) {
            if (errno == EINTR) continue;
            const int why = errno;
            buffer_.clear();
            throw Error(
                Code::machine,
                std::string("standard output: cannot be written: ") + std::strerror(why) +
                    "; what was to be posted may be in the ledger all the same: look before it is posted again");
        }
        rest.remove_prefix(static_cast<std::size_t>(written));
    }
    buffer_.clear();
}

}  // namespace coldtally::cli
