#include "app/run.h"

int main(int argc, char** argv) {
  const int first = argc > 0 ? 1 : 0;
  return jointledger::run({argv + first, argv + argc});
}
