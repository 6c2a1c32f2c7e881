# bash completion of glueup
_glueup() {
  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]} command=${COMP_WORDS[1]}
  local every="--ascii --quiet --color --help"
  local shop="--shop --people --temperature --glue --units"
  local plan="$shop --json --sheet --paper --explain --start --prove"
  COMPREPLY=()

  case $before in
    --shop) COMPREPLY=($(compgen -f -X '!*.toml' -- "$word") $(compgen -d -- "$word")); return ;;
    --json | --sheet | --log | -o | --out) COMPREPLY=($(compgen -f -- "$word")); return ;;
    --units) COMPREPLY=($(compgen -W "in mm" -- "$word")); return ;;
    --people) COMPREPLY=($(compgen -W "1 2 3 4" -- "$word")); return ;;
    --paper) COMPREPLY=($(compgen -W "a4 letter" -- "$word")); return ;;
    --color) COMPREPLY=($(compgen -W "auto always never" -- "$word")); return ;;
    --glue) COMPREPLY=($(compgen -W "$(_glueup_rows glues)" -- "$word")); return ;;
    --species) COMPREPLY=($(compgen -W "$(_glueup_rows woods)" -- "$word")); return ;;
    --temperature | --start | --size | --openings | --diagonals | --speed) return ;;
  esac

  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W "plan clamps glue check new rehearse fit tables --help --version" -- "$word"))
    return
  fi
  local options words
  case $command in
    plan | clamps | glue) options="$plan $every" ;;
    check) options="--expand $plan $every" ;;
    new)
      options="--out --size --species --glue --units --force $every"
      words="box panel frame carcass drawer lamination trestle parts shop" ;;
    rehearse) options="$shop --live --log --learn --speed $every" ;;
    fit) options="--openings --diagonals --units $every" ;;
    tables) options="--json $every"; words="woods glues clamps pressures" ;;
    *) return ;;
  esac
  if [[ $word == -* ]]; then
    COMPREPLY=($(compgen -W "$options" -- "$word"))
  elif [ -n "$words" ]; then
    COMPREPLY=($(compgen -W "$words" -- "$word"))
  else
    COMPREPLY=($(compgen -f -X '!*.toml' -- "$word") $(compgen -d -- "$word"))
  fi
}

# The ids of a table: its rows start at the left margin, "id: name".
_glueup_rows() {
  glueup tables "$1" --ascii --color never 2>/dev/null | sed -n 's/^\([a-z0-9_]*\): .*/\1/p'
}

complete -F _glueup glueup
