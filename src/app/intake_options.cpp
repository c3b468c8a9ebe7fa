#include "app/intake_options.h"

#include <array>
#include <string>
#include <vector>

#include "report/plain_text.h"

namespace jointledger {
namespace {

struct ColumnOption {
  const char* name;
  const char* help;
  std::string IntakeOptions::*column;
};

constexpr std::array<ColumnOption, 5> kColumns = {{
    {"id-column", "of CSV and TSV: the column that names the notes", &IntakeOptions::id_column},
    {"text-column", "of CSV and TSV: the column that holds their text", &IntakeOptions::text_column},
    {"author-column", "of CSV and TSV: the column of the authors, if there is one", &IntakeOptions::author_column},
    {"patient-column", "of CSV and TSV: the column of the patients, if there is one", &IntakeOptions::patient_column},
    {"date-column", "of CSV and TSV: the column of the dates, if there is one", &IntakeOptions::date_column},
}};

}  // namespace

void add_intake_options(po::options_description& options) {
  std::string about = "format of the notes, gzip-compressed or not:";
  for (const Format& format : formats()) about.append("\n").append(format.name).append(": ").append(format.about);
  options.add_options()("from", po::value<std::string>()->value_name("FORMAT")->default_value("auto"), about.c_str());
  const IntakeOptions usual;
  for (const auto& [name, help, column] : kColumns) {
    options.add_options()(name, po::value<std::string>()->value_name("NAME")->default_value(usual.*column), help);
  }
  options.add_options()("section", po::value<std::vector<std::string>>()->value_name("CODE"),
                        "of C-CDA: read the sections with this LOINC code; may be given several times (default: "
                        "29545-1, the physical exam)");
}

std::optional<Intake> intake_of(const po::variables_map& options, Console& console) {
  Intake intake;
  const auto& name = options["from"].as<std::string>();
  intake.from = format_named(name);
  if (intake.from == nullptr) {
    std::vector<std::string_view> names;
    for (const Format& format : formats()) names.push_back(format.name);
    console.log.error("--from: no format '{}'{} (there are: {})", on_one_line(name), did_you_mean(name, names),
                      listed(names));
    return std::nullopt;
  }
  for (const auto& [option, help, column] : kColumns) {
    intake.options.*column = options[option].as<std::string>();
    if ((intake.options.*column).empty()) {
      console.log.error("--{}: a column needs a name", option);
      return std::nullopt;
    }
  }
  if (options.count("section") > 0) intake.options.sections = values_of(options, "section");
  return intake;
}

}  // namespace jointledger
