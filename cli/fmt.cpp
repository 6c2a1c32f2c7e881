// The code of {fmt}, compiled once. Its headers alone would compile it again in every file that
// formats a number, which took half the time of building cli/; Debian's library is a shared one,
// and the program is to need none.
#include <fmt/format-inl.h>

FMT_BEGIN_NAMESPACE
namespace detail {
// What the headers leave to the library.
template FMT_API auto thousands_sep_impl<char>(locale_ref) -> thousands_sep_result<char>;
template FMT_API auto decimal_point_impl(locale_ref) -> char;
}  // namespace detail
FMT_END_NAMESPACE
