#include "coldtally/handover_work.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <utility>

#include "coldtally/error.hpp"
#include "forms/answer_json.hpp"
#include "text/json_text.hpp"
#include "text/shell_word.hpp"
#include "words/journeys.hpp"

namespace coldtally {

namespace {

/// Files that were not there before, and go again unless they are kept.
class NewFiles {
public:
    ~NewFiles() { remove(); }
    /// Code::contradiction where there is a file of this name, Code::machine where it cannot be written.
    void write(const std::string& name, const std::string& content) {
        const int file = ::open(name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
        if (file < 0) fail(name, errno);
        names_.push_back(name);
        std::size_t done = 0;
        int why = 0;
        while (done < content.size() && !why) {
            const ssize_t n = ::write(file, content.data() + done, content.size() - done);
            if (n >= 0)
                done += static_cast<std::size_t>(n);
            else if (errno != EINTR)
                why = errno;
        }
        if (!why && ::fsync(file) != 0 && errno != EINVAL) why = errno;
        if (::close(file) != 0 && !why) why = errno;
        if (why) fail(name, why);
    }
    NewFiles() = default;
    NewFiles(const NewFiles&) = delete;
    NewFiles& operator=(const NewFiles&) = delete;
    void remove() {
        for (const auto& name : std::exchange(names_, {})) ::unlink(name.c_str());
    }
    /// Those that were written, in their order; they stay.
    std::vector<std::string> keep() { return std::exchange(names_, {}); }

    [[noreturn]] static void fail(const std::string& name, int why) {
        if (why == EEXIST)
            throw Error(Code::contradiction,
                        "handover: " + text::quoted(name) +
                            ": there is a file of this name, and none is overwritten; name another");
        throw Error(Code::machine, "handover: " + text::quoted(name) + ": cannot be written: " + std::strerror(why));
    }

private:
    std::vector<std::string> names_;
};

std::string sheet_name(const std::string& file) {
    return (file.ends_with(".json") ? file.substr(0, file.size() - 5) : file) + ".txt";
}

void write_both(NewFiles& files, const HandoverAnswer& answer, const std::string& file, const TableStyle& style) {
    files.write(file, handover_file(answer));
    files.write(sheet_name(file), to_table(answer, style));
}

}  // namespace

std::vector<std::string> write_handover(const HandoverAnswer& answer, const std::string& file,
                                        const TableStyle& style) {
    NewFiles files;
    write_both(files, answer, file, style);
    return files.keep();
}

PostedTransfer post_transfer(Ledger& ledger, Drafted drafted, const std::optional<std::string>& file, bool unasked,
                             Instant now, bool dry_run, const TableStyle& style) {
    if (drafted.entries.empty() || !std::holds_alternative<Transfer>(drafted.entries.back().fact))
        throw Error(Code::bad_value, "entries: the last must be a transfer");
    PostedTransfer out;
    out.handover = ledger.handover_after(drafted.entries, now);
    const Entry& last = drafted.entries.back();
    std::optional<std::string> name = file;
    if (!name && unasked && out.handover.needed && !out.handover.condemned)
        name = handover_file_name(std::get<Transfer>(last.fact), *last.at, style.zone);
    NewFiles files;
    if (name && dry_run) {
        static_cast<void>(handover_file(out.handover));
        for (const auto& one : {*name, sheet_name(*name)}) {
            struct stat about;
            if (::lstat(one.c_str(), &about) == 0) NewFiles::fail(one, EEXIST);
            out.files.push_back(one);
        }
    } else if (name) {
        write_both(files, out.handover, *name, style);
    }
    ledger.post(drafted, now, dry_run);
    if (!dry_run) {
        if (drafted.entries.back().number != out.handover.transfer) {  // somebody posted meanwhile
            const EntryNumber posted = drafted.entries.back().number;
            try {
                out.handover = ledger.handover(posted, {}, now);
                if (name) {
                    files.remove();
                    write_both(files, out.handover, *name, style);
                }
            } catch (const Error& e) {
                throw Error(e.code(), "the transfer IS POSTED, as entry " + std::to_string(posted) +
                                          ", and its handover is not written: " + e.what());
            }
        }
        out.files = files.keep();
    }
    if (!out.files.empty())
        drafted.next_steps.push_back((dry_run ? words::would_send_handover : words::send_handover)(
            text::shell_word(out.files[0]), text::shell_word(out.files[1])));
    else if (out.handover.needed &&
             !out.handover.condemned)  // a file of condemned doses there is none; they are warned of
        drafted.warnings.push_back((dry_run ? words::no_handover_would_be_written
                                            : words::no_handover_written)(out.handover.transfer));
    out.posted = {std::move(drafted), dry_run};
    return out;
}

std::string to_json(const PostedTransfer& p) {
    forms::Json out = forms::Json::parse(to_json(p.posted));
    out["handover"] = forms::Json::parse(to_json(p.handover));
    out["files"] = p.files;
    return forms::json_line(out);
}

std::string to_table(const PostedTransfer& p, const TableStyle& style) { return to_table(p.posted, style); }

}  // namespace coldtally
