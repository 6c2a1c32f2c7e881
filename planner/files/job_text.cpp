#include "planner/files/job_text.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <string_view>

#include "planner/work/cut.h"

namespace planner::files {
namespace {

// A TOML basic string.
std::string in_quotes(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    const auto u = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (u < 0x20 || u == 0x7F) {
      constexpr std::string_view kHex = "0123456789ABCDEF";
      out += "\\u00";
      out += kHex[u / 16];
      out += kHex[u % 16];
    } else {
      out += c;
    }
  }
  return out + "\"";
}

// The shortest decimal that reads back as itself.
std::string number(double value) {
  std::array<char, 64> digits{};
  const auto end =
      std::to_chars(digits.data(), digits.data() + digits.size(), value, std::chars_format::fixed);
  return {digits.data(), end.ptr};
}

class JobWriter {
 public:
  explicit JobWriter(const work::Job& job) : job_(job) {}

  std::string write() {
    put("title", in_quotes(job_.title));
    put("units", job_.units == base::Units::inch ? "\"in\"" : "\"mm\"");
    if (job_.mesh) {
      write_mesh(*job_.mesh);
    }
    if (job_.bend) {
      write_bend(*job_.bend);  // its plies mean nothing without their form
    }
    for (const work::Part& part : job_.parts) {
      if (!job_.bend || part.place.line != job_.parts.front().place.line) {
        write_part(part);
      }
    }
    for (const work::JointOverride& joint : job_.overrides) {
      write_joint(joint);
    }
    if (!job_.glue.empty()) {
      head("[glue]");
      put("use", in_quotes(job_.glue));
    }
    for (const work::SawLater& saw : job_.saw_later) {
      head("[[saw_later]]");
      put("axis", axis(saw.axis));
      put("at", length(saw.at));
      put("kerf", length(saw.kerf));
    }
    for (const work::AskedStage& stage : job_.stages) {
      head("[[stage]]");
      put("name", in_quotes(stage.name));
      std::string parts;
      for (const std::string& part : stage.parts) {
        parts += (parts.empty() ? "" : ", ") + in_quotes(part);
      }
      put("parts", "[" + parts + "]");
    }
    for (const work::PlacedClamp& clamp : job_.placed) {
      write_placed(clamp);
    }
    if (job_.dry_fit) {
      write_dry_fit(*job_.dry_fit);
    }
    return std::move(out_);
  }

 private:
  void write_dry_fit(const work::DryFit& dry) {
    head("[dry_fit]");
    if (!dry.diagonals.empty()) {
      put("diagonals", list(dry.diagonals));
    }
    if (!dry.around.empty()) {
      put("around", in_quotes(dry.around));
    }
    if (!dry.openings.empty()) {
      put("openings", list(dry.openings));
    }
    if (!dry.closes.empty()) {
      std::string names;
      for (const std::string& name : dry.closes) {
        names += (names.empty() ? "" : ", ") + in_quotes(name);
      }
      put("closes", "[" + names + "]");
    }
    if (dry.wind) {
      put("wind", length(dry.wind->reading));
      put("sticks", length(dry.wind->sticks));
      if (!dry.wind->high.empty()) {
        put("high", in_quotes(dry.wind->high));
      }
    }
    for (const work::MeasuredCut& cut : dry.cuts) {
      head("[[dry_fit.cut]]");
      put("between", "[" + in_quotes(cut.between[0]) + ", " + in_quotes(cut.between[1]) + "]");
      if (cut.depth) {
        put("depth", length(*cut.depth));
      }
      if (cut.width) {
        put("width", length(*cut.width));
      }
    }
  }

  void head(const std::string& name) { out_ += "\n" + name + "\n"; }
  void put(std::string_view key, const std::string& value) {
    out_ += key;
    out_ += " = " + value + "\n";
  }

  // A bare number where that is exact in the file's units.
  std::string length(geometry::Length l) const {
    const std::string text = to_text(l, job_.units);
    const std::string_view unit = job_.units == base::Units::inch ? " in" : " mm";
    const bool own = text.size() > unit.size() &&
                     text.compare(text.size() - unit.size(), unit.size(), unit) == 0;
    const std::string bare = own ? text.substr(0, text.size() - unit.size()) : text;
    return own && bare.find('/') == std::string::npos ? bare : in_quotes(bare);
  }
  template <class Lengths>
  std::string list(const Lengths& lengths) const {
    std::string text;
    for (const geometry::Length l : lengths) {
      text += (text.empty() ? "" : ", ") + length(l);
    }
    return "[" + text + "]";
  }
  static std::string axis(int n) { return std::string("\"") + static_cast<char>('x' + n) + "\""; }
  static std::string face(work::Face f) { return in_quotes(to_text(f)); }
  void put(std::string_view key, const std::optional<geometry::Length>& l) {
    if (l) {
      put(key, length(*l));
    }
  }

  void write_mesh(const work::MeshSource& mesh) {
    head("[mesh]");
    std::string files;
    for (const std::string& file : mesh.files) {
      files += (files.empty() ? "" : ", ") + in_quotes(file);
    }
    put("files", "[" + files + "]");
    for (const char* unit : {"mm", "cm", "m", "in", "ft"}) {
      if (length_from(std::string("1 ") + unit, job_.units).value == mesh.unit) {
        put("units", in_quotes(unit));
      }
    }
  }

  void write_part(const work::Part& part) {
    head("[[part]]");
    put("name", in_quotes(part.name));
    put("species", in_quotes(part.species));
    if (!part.mesh) {
      write_place(part);
    } else if (!part.grain) {
      put("along", axis(part.along));
    }
    write_as_built(part);
    for (const work::Cut& cut : part.cuts) {
      head("[[part.cut]]");
      put("kind", in_quotes(spelled(kind_of(cut))));
      std::visit([&](const auto& shape) { write_cut(shape); }, cut.shape);
    }
  }

  void write_place(const work::Part& part) {
    put("length", length(part.length));
    if (part.round) {
      write_dowel(part);
    } else {
      put("width", length(part.width));
      put("thickness", length(part.thickness));
      put("along", axis(part.along));
      put("face", axis(part.face));
      put("at", list(part.at));
    }
    std::string turns;
    for (const geometry::Turn& turn : part.turns) {
      turns += (turns.empty() ? "" : ", ") + ("{ axis = " + axis(turn.axis)) + ", angle = " +
               number(turn.angle_deg) + ", about = " + list(turn.about) + " }";
    }
    if (!turns.empty()) {
      put("turn", part.turns.size() > 1 ? "[" + turns + "]" : turns);
    }
  }

  void write_as_built(const work::Part& part) {
    if (part.show) {
      std::string faces;
      for (const work::Face f : *part.show) {
        faces += (faces.empty() ? "" : ", ") + face(f);
      }
      put("show", "[" + faces + "]");
    }
    put("bow", part.bow);
    put("cup", part.cup);
    if (part.hollow) {
      put("hollow", face(*part.hollow));
    }
  }

  // A dowel lies where its axis does.
  void write_dowel(const work::Part& part) {
    std::array<geometry::Length, 3> end = part.at;
    for (const int i : {part.face, part.across()}) {
      end[static_cast<std::size_t>(i)] += part.width / 2;
    }
    put("kind", "\"dowel\"");
    put("diameter", length(part.width));
    put("along", axis(part.along));
    put("at", list(end));
  }

  std::string spelled(const std::string& kind) const {
    if (!job_.uk_words) {
      return kind;
    }
    return kind == "rabbet"    ? "rebate"
           : kind == "dado"    ? "housing"
           : kind == "mortise" ? "mortice"
                               : kind;
  }

  void write_cut(const work::Rabbet& r) {
    put("on", face(r.on));
    put("side", face(r.side));
    put("width", length(r.width));
    put("depth", length(r.depth));
    put("from", r.from);
    put("to", r.to);
  }
  void write_cut(const work::Channel& c) {
    put("on", face(c.on));
    put("runs", axis(c.runs));
    put("offset", length(c.offset));
    put("width", length(c.width));
    put("depth", length(c.depth));
    put("from", c.from);
    put("to", c.to);
    if (c.lean_deg > 0) {
      put("lean", number(c.lean_deg));
    }
  }
  void write_cut(const work::Hole& h) {
    put("on", face(h.on));
    put("at", list(h.at));
    put("diameter", length(h.diameter));
    put("depth", length(h.depth));
  }
  void write_cut(const work::Notch& n) {
    put("from", list(n.from));
    put("size", list(n.size));
  }
  void write_cut(const work::Mortise& m) {
    put("on", face(m.on));
    put("from", list(m.from));
    put("size", list(m.size));
    put("depth", length(m.depth));
  }
  void write_cut(const work::Tenon& t) {
    put("on", face(t.on));
    put("length", length(t.length));
    put("from", list(t.from));
    put("size", list(t.size));
  }
  void write_cut(const work::Mitre& m) {
    put("side", face(m.side));
    put("long", face(m.long_face));
    put("angle", number(m.angle_deg));
    if (m.taper_deg != 0) {
      put("taper", number(m.taper_deg));
    }
  }
  void write_cut(const work::Fingers& f) {
    put("side", face(f.side));
    put("depth", length(f.depth));
    put("count", std::to_string(f.count));
    put("first", f.first_kept ? "\"keep\"" : "\"cut\"");
  }

  template <class Row>
  void write_row(const Row& row) {
    put("count", std::to_string(row.count));
    put("slope", "\"1:" + std::to_string(row.slope) + "\"");
    put("from", row.from);
    put("to", row.to);
  }
  void write_cut(const work::Tails& t) {
    put("side", face(t.side));
    put("depth", length(t.depth));
    write_row(t);
  }
  void write_cut(const work::Pins& p) {
    put("side", face(p.side));
    put("on", face(p.on));
    put("depth", length(p.depth));
    put("reach", length(p.reach));
    write_row(p);
  }
  void write_cut(const work::Kerf& k) {
    put("side", face(k.side));
    put("long", face(k.long_face));
    put("angle", number(k.angle_deg));
    put("in", length(k.in));
    put("width", length(k.width));
    put("depth", length(k.depth));
    if (k.flat) {
      put("flat", "true");
    }
  }
  void write_cut(const work::Chamfer& c) {
    put("on", face(c.on));
    put("side", face(c.side));
    put("width", length(c.width));
    put("depth", length(c.depth));
  }

  void write_bend(const work::Bend& bend) {
    head("[bent]");
    put("radius", length(bend.radius));
    put("arc", std::to_string(bend.arc_deg));
    put("plies", std::to_string(bend.plies));
    put("ply", length(bend.ply));
    put("width", length(bend.width));
    put("species", in_quotes(bend.species));
  }

  void write_joint(const work::JointOverride& joint) {
    head("[[joint]]");
    put("between", "[" + in_quotes(joint.between[0]) + ", " + in_quotes(joint.between[1]) + "]");
    if (joint.glue) {
      put("glue", in_quotes(*joint.glue));
    } else if (joint.glued) {
      put("glue", *joint.glued ? "true" : "false");
    }
    if (joint.faces) {
      put("faces", std::to_string(*joint.faces));
    }
    put("middle", joint.middle);
    if (joint.pocket) {
      put("held_by", in_quotes(std::string(work::kPocketScrews)));
    } else if (joint.held_by) {
      put("held_by", in_quotes(std::string(
                         std::ranges::find(work::kHeldByWords, *joint.held_by, &work::HeldByWord::by)->word)));
    }
    if (joint.loose) {
      put("fit", "\"loose\"");
    }
  }

  void write_placed(const work::PlacedClamp& clamp) {
    head("[[my_clamp]]");
    put("axis", axis(clamp.axis));
    put("at", list(clamp.at));
    if (!clamp.kind.empty()) {
      put("kind", in_quotes(clamp.kind));
    }
    if (clamp.force_N) {
      put("force", in_quotes(number(*clamp.force_N) + " N"));
    }
    if (clamp.pad) {
      put("pad", list(*clamp.pad));
    }
  }

  const work::Job& job_;
  std::string out_;
};

}  // namespace

std::string job_text(const work::Job& job) {
  return JobWriter(job).write();
}

}  // namespace planner::files
