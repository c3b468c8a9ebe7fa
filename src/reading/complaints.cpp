#include "reading/complaints.h"

namespace jointledger {

void find_complaints(const Document&, std::vector<Sentence>&, std::vector<Item>&, std::vector<Complaint>& out) { out.clear(); }

}  // namespace jointledger
