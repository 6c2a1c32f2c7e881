# bash completion of glueup
_glueup() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} command=${COMP_WORDS[1]}
  # "--units=in" comes as three words.
  if [ "$word" = "=" ]; then
    word=
  elif [ "$before" = "=" ]; then
    before=${COMP_WORDS[COMP_CWORD-2]}
  fi
  local shop="--shop --people --temperature --humidity --glue --units" search="--explain --full --stages --no-limit --ascii"
  COMPREPLY=()

  case $before in
    --shop) _glueup_files '!*.toml'; return ;;
    --json | --sheet | --calendar | --log | -o | --out) _glueup_files; return ;;
    --units) _glueup_words "in mm"; return ;;
    --people) _glueup_words "1 2 3 4"; return ;;
    --stages | --from-stage) _glueup_words "1 2 3 4"; return ;;
    --paper) _glueup_words "a4 letter"; return ;;
    --color) _glueup_words "auto always never"; return ;;
    --glue) _glueup_words "$(_glueup_rows glues)"; return ;;
    --species) _glueup_words "$(_glueup_rows woods)"; return ;;
    --temperature | --humidity | --start | --size | --openings | --diagonals | --speed) return ;;
  esac

  if [ "$COMP_CWORD" -eq 1 ]; then
    _glueup_words "plan clamps glue check new rehearse dry-fit page tables --help --version"
    return
  fi
  local options words
  case $command in
    plan) options="$shop --sheet --paper --start --calendar --from-stage --details --json $search --quiet --color" ;;
    clamps) options="$shop --json $search --quiet --color" ;;
    glue) options="$shop --json --quiet --color" ;;
    check) options="--expand --shop --glue --units --json --quiet --color" ;;
    new)
      options="--out --size --species --glue --units --force"
      words="box panel frame carcass drawer table_base lamination ring veneer bent parts shop" ;;
    rehearse) options="$shop --live --log --learn --speed --quiet" ;;
    page) options="--out" ;;
    dry-fit) options="--openings --diagonals --units --quiet --color" ;;
    tables) options="--json --color"; words="woods glues clamps pressures" ;;
    *) return ;;
  esac
  if [[ $word == -* ]]; then
    _glueup_words "$options --help"
  elif [ -n "$words" ]; then
    _glueup_words "$words"
  else
    _glueup_files '!*.toml'
  fi
}

# What begins as the word under the cursor does.
_glueup_words() {
  COMPREPLY=($(compgen -W "$1" -- "$word"))
}

# Files, without those that the pattern leaves out, and folders; blanks in names kept.
_glueup_files() {
  local IFS=$'\n'
  compopt -o filenames 2>/dev/null
  if [ -n "$1" ]; then
    COMPREPLY=($(compgen -f -X "$1" -- "$word"; compgen -d -- "$word"))
  else
    COMPREPLY=($(compgen -f -- "$word"))
  fi
}

# The ids of a table: its rows start at the left margin, "id: name".
_glueup_rows() {
  glueup tables "$1" --color never 2>/dev/null | sed -n 's/^\([a-z0-9_]*\): .*/\1/p'
}

complete -F _glueup glueup
