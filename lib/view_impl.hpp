// What a view holds: a transaction, what is known in it, and the World that all its questions are asked of.
#pragma once

#include <memory>
#include <stdexcept>
#include <string>
#include <variant>

#include "coldtally/view.hpp"
#include "ledger/database.hpp"
#include "question/world.hpp"

namespace coldtally {

[[noreturn]] void rows_contradict(const std::string& path);

/// Runs a step. Rows that contradict each other end in one of these, wherever they are met. All else is what it says:
/// memory, the system, or what the caller's own functions throw.
template <class Step>
auto sound(const std::string& path, Step step) {
    try {
        return step();
    } catch (const std::bad_variant_access&) {
        rows_contradict(path);
    } catch (const std::bad_optional_access&) {
        rows_contradict(path);
    } catch (const std::out_of_range&) {
        rows_contradict(path);
    }
}

struct View::Impl {
    std::string path;
    std::shared_ptr<ledger::Transaction> transaction;  // of the ledger, shared by all that is read meanwhile
    std::shared_ptr<const ledger::Known> known;
    answers::World world;

    Impl(std::string of, std::shared_ptr<ledger::Transaction> reading, std::shared_ptr<const ledger::Known> what,
         const ledger::Store& store, const AnswerHead& head)
        : path(std::move(of)), transaction(std::move(reading)), known(std::move(what)), world(store, head, *known) {}

    template <class Answer>
    auto ask(Answer answer) {
        return sound(path, [&] { return answer(world); });
    }
};

}  // namespace coldtally
