#include "tasks/note_swap.hpp"

#include "catalogue/text.hpp"
#include "tasks/files.hpp"

namespace benchgraft::tasks {

Result<Recorded> note_swap(const ShopAt& at, const std::string& file) {
  auto texts = read_files({file});
  if (!texts) return texts.error();
  auto note = catalogue::read_swap_note(texts.value().front().bytes, file);
  if (!note) return note.error();
  return carry_out(at, shop::AddNote{std::move(note).value()});
}

}  // namespace benchgraft::tasks
