#compdef glueup
# zsh completion of glueup

_glueup_rows() {
  local -a rows
  rows=(${(f)"$(glueup tables $1 --ascii --color never 2>/dev/null | sed -n 's/^\([a-z0-9_]*\): .*/\1/p')"})
  compadd -a rows
}

_glueup() {
  local -a commands every shop plan
  commands=(
    'plan:the whole plan: order, clock, clamps, glue'
    'clamps:do I own enough clamps, and where does each go'
    'glue:how much glue, what to mix, which glue suits'
    'check:the parts and the joints found between them'
    "new:a job file to start from, or the shop's"
    'rehearse:the steps on a running clock, dry or live'
    'fit:what to cut and mend after the dry fit'
    'tables:the tables, each value with its source'
  )
  every=(
    '--ascii[plain characters only]'
    '--quiet[no warnings]'
    '--color[colour]:when:(auto always never)'
    '(-h --help)'{-h,--help}'[help]'
  )
  shop=(
    '--shop[the shop file]:file:_files -g "*.toml"'
    '--people[how many glue up]:number:(1 2 3 4)'
    '--temperature[of the shop]:temperature:'
    '--glue[a glue of the shop file or the table]:glue:{_glueup_rows glues}'
    '--units[print in these]:units:(in mm)'
  )
  plan=(
    '--json[machine-readable]::file:_files'
    '--sheet[the bench sheet]:file:_files'
    '--paper[to print it on]:size:(a4 letter)'
    '--explain[say why at every step and clamp]'
    '--start[open the glue at this time]:time:'
    '--prove[search on without the effort limit]'
  )
  if (( CURRENT == 2 )); then
    _describe command commands -- '(--version --help)'
    return
  fi
  local command=$words[2]
  shift words
  (( CURRENT-- ))
  case $command in
    plan|glue) _arguments $every $shop $plan '1:job:_files -g "*.toml"' ;;
    check) _arguments $every $shop $plan '--expand[the job part by part]' '1:job:_files -g "*.toml"' ;;
    clamps) _arguments $every $shop $plan '*:job:_files -g "*.toml"' ;;
    new)
      _arguments $every '(-o --out)'{-o,--out}'[the file to write]:file:_files' \
        '--size[its outside]:sizes:' '--species[the wood]:wood:{_glueup_rows woods}' \
        '--glue[the glue]:glue:{_glueup_rows glues}' '--units[of the file]:units:(in mm)' \
        '--force[write over a file that is there]' \
        '1:kind:(box panel frame carcass drawer lamination trestle parts shop)' ;;
    rehearse)
      _arguments $every $shop '--live[with glue]' '--log[keep the times here]:file:_files' \
        "--learn[from the log to the shop file's pace]" '--speed[run the clock faster]:factor:' \
        '1:job:_files -g "*.toml"' ;;
    fit)
      _arguments $every '--openings[as measured]:list:' '--diagonals[both]:list:' \
        '--units[print in these]:units:(in mm)' '1:job:_files -g "*.toml"' ;;
    tables) _arguments $every '--json[machine-readable]::file:_files' \
        '1:table:(woods glues clamps pressures)' ;;
  esac
}

_glueup "$@"
