#include "faults/asking.hpp"

#include <signal.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstring>
#include <filesystem>
#include <fstream>

#include "coldtally/error.hpp"
#include "coldtally/ledger.hpp"
#include "faults/clinic.hpp"

#if defined(__SANITIZE_ADDRESS__)
#define FAULTS_SANITIZED 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define FAULTS_SANITIZED 1
#endif
#endif

namespace faults {

using namespace coldtally;

namespace {

[[maybe_unused]] constexpr rlim_t most_memory = 1u << 30;
constexpr unsigned most_seconds = 10, most_seconds_asleep = 120;

void put(std::string& out, char what, const std::string& name, const std::string& text) {
    const std::uint32_t sizes[2] = {static_cast<std::uint32_t>(name.size()), static_cast<std::uint32_t>(text.size())};
    out += what;
    out.append(reinterpret_cast<const char*>(sizes), sizeof sizes);
    out += name;
    out += text;
}

void write_all(int descriptor, const std::string& bytes) {
    for (std::size_t done = 0; done < bytes.size();) {
        const ssize_t count = write(descriptor, bytes.data() + done, bytes.size() - done);
        if (count <= 0) _exit(3);
        done += static_cast<std::size_t>(count);
    }
}

/// Runs a call; what it throws is put down.
template <class Call>
void tell(std::string& out, const std::string& name, Call call) {
    try {
        call();
    } catch (const Error& e) {
        put(out, 'E', name, std::string(code_name(e.code())) + "\n" + e.what());
    } catch (const std::exception& e) {
        put(out, 'U', name, e.what());
    } catch (...) {
        put(out, 'U', name, "something that is no exception");
    }
}

[[noreturn]] void child(int to, const std::string& path, const std::string& bytes,
                        const std::function<bool(const std::string&, std::string&)>& damage) {
    std::ofstream(path, std::ios::binary | std::ios::trunc) << bytes;
    std::string out, words;
    if (!damage(path, words)) {
        put(out, 'K', "", words);
        write_all(to, out);
        _exit(0);
    }
#ifndef FAULTS_SANITIZED
    const rlimit memory{most_memory, most_memory};
    setrlimit(RLIMIT_AS, &memory);
#endif
    const rlimit seconds{most_seconds, most_seconds + 1}, no_core{0, 0};
    setrlimit(RLIMIT_CPU, &seconds);
    setrlimit(RLIMIT_CORE, &no_core);
    alarm(most_seconds_asleep);
    for (const auto& q : questions())
        tell(out, q.name, [&] {  // opened anew each time: what one question has read must not stand in for another's
            Ledger ledger(path, Ledger::Mode::read, Duration(1));
            put(out, 'A', q.name, q.ask(ledger));
        });
    tell(out, "verify", [&] {
        const auto v = Ledger(path, Ledger::Mode::read, Duration(1)).verify();
        put(out, 'V', std::to_string(v.findings.size()), v.findings.empty() ? "" : english().say(v.findings.front()));
    });
    tell(out, "post", [&] { Ledger(path, Ledger::Mode::write, Duration(1)).post(batch(1, 2), asked_at()); });
    write_all(to, out);
    _exit(0);
}

}  // namespace

Asked ask(const std::string& path, const std::string& bytes,
          const std::function<bool(const std::string&, std::string&)>& damage) {
    std::error_code ignored;
    std::filesystem::remove_all(path, ignored);
    std::filesystem::remove(path + "-journal", ignored);
    questions();  // made once, before any fork
    Asked out;
    int ends[2];
    if (pipe(ends) != 0) throw std::runtime_error("no pipe");
    const pid_t pid = fork();
    if (pid < 0) throw std::runtime_error("no process");
    if (pid == 0) {
        close(ends[0]);
        child(ends[1], path, bytes, damage);
    }
    close(ends[1]);
    std::string said;
    char piece[1 << 16];
    for (ssize_t count; (count = read(ends[0], piece, sizeof piece)) > 0;)
        said.append(piece, static_cast<std::size_t>(count));
    close(ends[0]);
    int status = 0;
    waitpid(pid, &status, 0);
    if (WIFSIGNALED(status)) {
        const int signal = WTERMSIG(status);
        out.end = signal == SIGXCPU || signal == SIGKILL ? "more than 10 s of processor time"
                  : signal == SIGALRM                    ? "more than two minutes asleep"
                                                         : std::string("signal ") + strsignal(signal);
    } else if (WEXITSTATUS(status) != 0) {
        out.end = "status " + std::to_string(WEXITSTATUS(status));
    }
    for (std::size_t i = 0; i + 9 <= said.size();) {
        const char what = said[i];
        std::uint32_t sizes[2];
        std::memcpy(sizes, said.data() + i + 1, sizeof sizes);
        const std::string name = said.substr(i + 9, sizes[0]), text = said.substr(i + 9 + sizes[0], sizes[1]);
        i += 9 + sizes[0] + sizes[1];
        if (what == 'K') {
            out.kept_out = true;
            out.kept_out_by = text;
        } else if (what == 'A') {
            out.answers[name] = text;
        } else if (what == 'V') {
            out.findings = std::stol(name);
            out.finding = text;
        } else if (what == 'U') {
            out.unlisted.push_back(name + ": " + text);
        } else {
            const auto line = text.find('\n');
            out.refusals[name] = {text.substr(0, line), text.substr(line + 1)};
        }
    }
    return out;
}

std::string wrong_with_error(const std::string& message) {
    // words of the C++ library and of others that a reader of a ledger cannot do anything with
    for (const char* word :
         {"std::", "::", "bad_alloc", "bad_", "vector", "basic_string", "map::at", "stoi", "json.exception",
          "exception.", "domain_error", "optional access", "out of memory", "Result cannot be", "Unable to"})
        if (message.find(word) != std::string::npos)
            return std::string("says \"") + word + "\": " + message.substr(0, 300);
    if (message.empty()) return "says nothing";
    if (message.size() > 4000) return "is " + std::to_string(message.size()) + " bytes long: " + message.substr(0, 200);
    for (const char c : message)
        if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) return "is not one line: " + message.substr(0, 300);
    return {};
}

std::string wrong_with(const Asked& damaged, const Asked& whole, bool must_be_found) {
    if (damaged.kept_out) return {};
    if (!damaged.end.empty()) return "ended by " + damaged.end;
    if (!damaged.unlisted.empty()) return "an error that is not of the list: " + damaged.unlisted.front();
    for (const auto& [name, refusal] : damaged.refusals) {
        if (const auto wrong = wrong_with_error(refusal.message); !wrong.empty()) return name + ": the error " + wrong;
        if (refusal.code == "busy" || refusal.code == "machine")
            return name + ": damage is told as the machine's: " + refusal.code + ": " + refusal.message;
    }
    if (damaged.findings != 0) return {};  // found, or refused
    for (const auto& [name, answer] : damaged.answers)
        if (const auto at = whole.answers.find(name); at == whole.answers.end() || at->second != answer)
            return "ANSWERS DIFFERENTLY and verifies: " + name;
    if (must_be_found) return "verifies";
    return {};
}

}  // namespace faults
