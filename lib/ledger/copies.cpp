#include "coldtally/copies.hpp"

#include <algorithm>

#include "coldtally/error.hpp"
#include "ledger/new_file.hpp"
#include "ledger/posting.hpp"
#include "ledger/verify.hpp"
#include "words/file.hpp"

namespace coldtally {

namespace {

using ledger::NewFile;
using ledger::Store;
using ledger::Transaction;

int milliseconds(Duration wait) { return static_cast<int>(std::clamp<std::int64_t>(wait.seconds(), 0, 86400) * 1000); }

/// Every entry of an older file, posted anew. Its link must be the one it had.
void post_anew(const Store& older, Store& fresh, const std::string& shown) {
    Transaction reading(older.database(), Transaction::Kind::read);
    older.tip();  // Code::damaged where the end is missing: an entry that is not there has no link to compare
    Transaction writing(fresh.database(), Transaction::Kind::write);
    ledger::Posting posting(fresh);
    older.for_each_body(1, [&](EntryNumber n, Instant, std::string_view, std::string_view, std::string_view link) {
        const std::string where = shown + ": entry " + std::to_string(n);
        auto entry = older.entry(n);  // Code::damaged where it is not what was posted after the one before
        posting.post(*entry, where);
        const auto now = fresh.tip().link;
        if (!std::equal(now.begin(), now.end(), link.begin(), link.end(),
                        [](unsigned char a, char b) { return a == static_cast<unsigned char>(b); }))
            throw Error(Code::damaged, where +
                                           ": is written otherwise than it would be now, and its link would not be the "
                                           "same; restore it with the program that wrote it");
    });
    writing.commit();
}

LedgerCopy copy(const Store& from, std::int64_t format, const std::string& to, int wait_ms) {
    NewFile beside(to);
    LedgerCopy out{to, {}, format, ledger::format_version};
    if (format == ledger::format_version) {
        ledger::Database fresh(beside.name(), ledger::Database::Access::write, wait_ms);
        fresh.say(to);
        fresh.execute("PRAGMA synchronous = EXTRA");
        from.database().copy_to(fresh);
    } else {
        Store fresh = Store::create(beside.name(), wait_ms);
        fresh.database().say(to);
        post_anew(from, fresh, from.database().shown());
    }
    {
        const Store made = Store::open(beside.name(), false, wait_ms);
        Transaction t(made.database(), Transaction::Kind::read);
        out.verified = ledger::verify(made);
    }
    if (out.verified.findings_in_all > 0)
        throw Refusal(Code::damaged,
                      words::copy_not_made(from.database().shown(), out.verified.findings.front(),
                                           out.verified.findings_in_all, words::task("verify")));
    beside.publish();
    return out;
}

}  // namespace

LedgerCopy back_up(const std::string& ledger, const std::string& to, Duration wait) {
    const Store from = Store::open(ledger, false, milliseconds(wait));
    return copy(from, ledger::format_version, to, milliseconds(wait));
}

LedgerCopy restore(const std::string& from, const std::string& ledger, Duration wait) {
    const Store older = Store::open_older(from, milliseconds(wait));
    return copy(older, older.format(), ledger, milliseconds(wait));
}

}  // namespace coldtally
