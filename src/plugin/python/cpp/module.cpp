// jointledger._core: what the Python side of the module is built on. Its functions take plain values and return plain
// values; names, defaults and exceptions for users are made in Python.
#include <nanobind/nanobind.h>
#include <nanobind/stl/shared_ptr.h>
#include <nanobind/stl/string.h>
#include <nanobind/stl/variant.h>
#include <nanobind/stl/vector.h>

#include "engine.h"
#include "frames.h"
#include "profiles.h"
#include "results.h"

namespace jointledger::python {
namespace nb = nanobind;
namespace {

/// (length, buffers, children)
nb::tuple as_python(const Column& column) {
  nb::list buffers;
  for (const auto& buffer : column.buffers) {
    buffers.append(buffer ? nb::object(nb::bytes(buffer->data(), buffer->size())) : nb::object(nb::none()));
  }
  nb::list children;
  for (const Column& child : column.children) children.append(as_python(child));
  return nb::make_tuple(column.length, buffers, children);
}

nb::list as_python(const std::vector<std::vector<Column>>& blocks) {
  nb::list out;
  for (const std::vector<Column>& columns : blocks) {
    nb::list block;
    for (const Column& column : columns) block.append(as_python(column));
    out.append(block);
  }
  return out;
}

std::variant<std::shared_ptr<Engine>, Failure> opened(std::string data, std::vector<std::string> lexicon,
                                                      std::vector<std::string> rules, bool own_lexicon_only,
                                                      bool own_rules_only) {
  const nb::gil_scoped_release unlocked;
  return open_engine({std::move(data), std::move(lexicon), std::move(rules), own_lexicon_only, own_rules_only});
}

}  // namespace

// NOLINTNEXTLINE: the macro's own.
NB_MODULE(_core, m) {
  m.attr("VERSION") = jointledger_version();
  m.attr("NO_MEMORY") = static_cast<int>(JOINTLEDGER_NO_MEMORY);

  nb::class_<Failure>(m, "Failure", "Why something could not be done: a code of the C interface, and a sentence.")
      .def_ro("code", &Failure::code)
      .def_ro("message", &Failure::message);

  nb::class_<Engine>(m, "Engine", "Words and rules, loaded. Shared by all threads.")
      .def_prop_ro("warnings", &Engine::warnings)
      .def("profiles", profiles)
      .def(
          "ledgers",
          [](Engine& self, nb::tuple notes, const std::vector<std::string>& ids, std::size_t threads) {
            return results(self, std::move(notes), ids, {}, threads);
          },
          nb::arg("notes"), nb::arg("ids"), nb::arg("threads"))
      .def(
          "audits",
          [](Engine& self, nb::tuple notes, const std::vector<std::string>& ids, const std::string& profile,
             float certainty, std::size_t threads) {
            return results(self, std::move(notes), ids, {true, profile, certainty}, threads);
          },
          nb::arg("notes"), nb::arg("ids"), nb::arg("profile"), nb::arg("certainty"), nb::arg("threads"))
      .def(
          "entry_blocks",
          [](Engine& self, nb::handle validity, nb::handle offsets, nb::handle data, std::size_t first,
             std::size_t count, std::size_t threads) {
            const ArrowTexts texts(validity, offsets, data, first, count);
            return as_python(entry_blocks(self, texts, threads));
          },
          nb::arg("validity").none(), nb::arg("offsets").none(), nb::arg("data").none(), nb::arg("first"),
          nb::arg("count"), nb::arg("threads"))
      .def(
          "gap_blocks",
          [](Engine& self, nb::handle validity, nb::handle offsets, nb::handle data, std::size_t first,
             std::size_t count, const std::string& profile, float certainty, std::size_t threads) {
            const ArrowTexts texts(validity, offsets, data, first, count);
            return as_python(gap_blocks(self, texts, {true, profile, certainty}, threads));
          },
          nb::arg("validity").none(), nb::arg("offsets").none(), nb::arg("data").none(), nb::arg("first"),
          nb::arg("count"), nb::arg("profile"), nb::arg("certainty"), nb::arg("threads"));

  m.def("open_engine", opened, nb::arg("data"), nb::arg("lexicon"), nb::arg("rules"), nb::arg("own_lexicon_only"),
        nb::arg("own_rules_only"));
}

}  // namespace jointledger::python
