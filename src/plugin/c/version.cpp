// Which library this is, and what its codes mean.
#include <string_view>

#include "jointledger.h"

namespace {

static_assert(std::string_view(JOINTLEDGER_VERSION) == JOINTLEDGER_PROJECT_VERSION,
              "src/jointledger.h and the project() line give different versions");
static_assert(JOINTLEDGER_VERSION_NUMBER == JOINTLEDGER_PROJECT_VERSION_NUMBER);
static_assert(JOINTLEDGER_ABI_VERSION == JOINTLEDGER_PROJECT_ABI_VERSION);

}  // namespace

int jointledger_abi_version() noexcept { return JOINTLEDGER_ABI_VERSION; }
const char* jointledger_version() noexcept { return JOINTLEDGER_VERSION; }
int jointledger_version_number() noexcept { return JOINTLEDGER_VERSION_NUMBER; }

const char* jointledger_code_text(int code) noexcept {
  switch (code) {
    case JOINTLEDGER_OK:
      return "success";
    case JOINTLEDGER_BAD_ARGUMENT:
      return "an argument is missing or out of range";
    case JOINTLEDGER_NO_MEMORY:
      return "not enough memory";
    case JOINTLEDGER_BAD_TEXT:
      return "a text is not UTF-8, has a NUL byte, or is empty";
    case JOINTLEDGER_TOO_LONG:
      return "a text is too long";
    case JOINTLEDGER_BAD_RECORD:
      return "a record is not what it should be";
    case JOINTLEDGER_NO_PROFILE:
      return "no profile of that name";
    case JOINTLEDGER_NO_DATA:
      return "a folder of words or rules is not there";
    case JOINTLEDGER_BAD_DATA:
      return "a table or profile has faults";
    case JOINTLEDGER_NOT_READ:
      return "nothing has been read, or audited, that this could be about";
    case JOINTLEDGER_BUSY:
      return "another call uses this scratch";
    case JOINTLEDGER_INTERRUPTED:
      return "interrupted";
    case JOINTLEDGER_INTERNAL:
      return "an error that should not happen";
    default:
      return "unknown code";
  }
}
