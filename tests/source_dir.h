// Where the checkout is, for tests that read its fixtures.
#pragma once
#include <string>

// The checkout's folder, absolute, without a slash at its end.
std::string source_dir();
