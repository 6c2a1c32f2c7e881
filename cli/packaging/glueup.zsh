#compdef glueup
# zsh completion of glueup

_glueup_rows() {
  local -a rows
  rows=(${(f)"$(glueup tables $1 --color never 2>/dev/null | sed -n 's/^\([a-z0-9_]*\): \(.*\)/\1:\2/p')"})
  _describe $1 rows
}

_glueup() {
  local -a commands help quiet color json job units glue shop search
  commands=(
    'plan:the whole plan: order, clock, clamps, glue'
    'clamps:do I own enough clamps, and where does each go'
    'glue:how much glue, what to mix, which glue suits'
    'check:the parts and the joints found between them'
    "new:a job file to start from, or the shop's"
    'rehearse:the steps on a running clock, dry or live'
    'dry-fit:what to cut and fix after the dry fit'
    'page:the planner as one HTML file for any browser, offline'
    'tables:the tables, each value with its source'
  )
  help=('(-h --help)'{-h,--help}'[print this help]')
  quiet='--quiet[no warnings]'
  color='--color=[color]:when:(auto always never)'
  json='--json=[machine-readable]::file:_files'
  job='1:job:_files -g "*.toml"'
  units='--units=[print in these]:units:(in mm)'
  glue='--glue=[a glue of the shop file or the table]:glue:{_glueup_rows glues}'
  shop=(
    '--shop=[the shop file]:file:_files -g "*.toml"'
    '--people=[how many glue up]:number:(1 2 3 4)'
    '--temperature=[of the shop]:temperature:'
    '--humidity=[of the air]:humidity:'
    $glue
    $units
  )
  search=(
    '--explain[say why at every step and clamp]'
    '--full[plan full pressure, not only what holds]'
    '--stages=[glue up in so many stages]:number:(1 2 3 4)'
    '--no-limit[search on without the effort limit]'
    '--ascii[plain characters only]'
  )
  if (( CURRENT == 2 )); then
    if [[ $words[2] == -* ]]; then
      compadd -- --version --help
    else
      _describe command commands
    fi
    return
  fi
  local command=$words[2]
  shift words
  (( CURRENT-- ))
  case $command in
    plan)
      _arguments $help $shop $json $search $quiet $color $job \
        '--sheet=[the bench sheet]:file:_files' '--paper=[to print it on]:size:(a4 letter)' \
        '--start=[open the glue then]:time:' \
        '--calendar=[when to come back]:file:_files' '--from-stage=[go on from that stage]:number:(2 3 4)' \
        '--details[all of it]' ;;
    clamps) _arguments $help $shop $json $search $quiet $color '*:job:_files -g "*.toml"' ;;
    glue) _arguments $help $shop $json $quiet $color $job ;;
    check)
      _arguments $help $shop[1] $glue $units $json $quiet $color $job \
        '--expand[the job part by part]' ;;
    new)
      _arguments $help '(-o --out)'{-o,--out=}'[the file to write]:file:_files' \
        '--size=[its outside]:sizes:' '--species=[the wood]:wood:{_glueup_rows woods}' \
        $glue '--units=[of the file]:units:(in mm)' '--force[write over a file that is there]' \
        '1:kind:(box panel frame carcass drawer table_base lamination ring veneer bent parts shop)' ;;
    rehearse)
      _arguments $help $shop $quiet $job '--live[with glue]' '--log=[keep the times here]:file:_files' \
        "--learn[from the log to the shop file's pace]" '--speed=[run the clock faster]:factor:' ;;
    dry-fit)
      _arguments $help $units $quiet $color $job '--openings=[as measured]:list:' \
        '--diagonals=[both]:list:' ;;
    page) _arguments $help '(-o --out)'{-o,--out=}'[the file to write]:file:_files' ;;
    tables) _arguments $help $json $color '1:table:(woods glues clamps pressures)' ;;
  esac
}

_glueup "$@"
