# fish completion of glueup

function __glueup_rows
    glueup tables $argv[1] --color never 2>/dev/null | string replace -rf '^([a-z0-9_]+): (.*)' '$1\t$2'
end

# The first word that is no option is the command; later ones may be called like one.
function __glueup_command
    set -l words (commandline -opc)
    contains -- "$words[2]" $argv
end

complete -c glueup -f
complete -c glueup -n __fish_use_subcommand -a plan -d 'the whole plan: order, clock, clamps, glue'
complete -c glueup -n __fish_use_subcommand -a clamps -d 'do I own enough clamps, and where does each go'
complete -c glueup -n __fish_use_subcommand -a glue -d 'how much glue, what to mix, which glue suits'
complete -c glueup -n __fish_use_subcommand -a check -d 'the parts and the joints found between them'
complete -c glueup -n __fish_use_subcommand -a new -d "a job file to start from, or the shop's"
complete -c glueup -n __fish_use_subcommand -a rehearse -d 'the steps on a running clock, dry or live'
complete -c glueup -n __fish_use_subcommand -a dry-fit -d 'what to cut and fix after the dry fit'
complete -c glueup -n __fish_use_subcommand -a page -d 'the planner as one HTML file for any browser, offline'
complete -c glueup -n __fish_use_subcommand -a tables -d 'the tables, each value with its source'
complete -c glueup -n __fish_use_subcommand -l version -d 'print the version'
complete -c glueup -s h -l help -d 'print this help'

set -l job '__glueup_command plan clamps glue check rehearse dry-fit'
set -l shop '__glueup_command plan clamps glue rehearse'
complete -c glueup -n "$job" -k -a '(__fish_complete_suffix .toml)'
complete -c glueup -n "$shop check" -l shop -r -F -d 'the shop file'
complete -c glueup -n "$shop" -l people -x -a '1 2 3 4' -d 'how many glue up'
complete -c glueup -n "$shop" -l temperature -x -d 'of the shop'
complete -c glueup -n "$shop" -l humidity -x -d 'of the air'
complete -c glueup -n "$shop check new" -l glue -x -a '(__glueup_rows glues)' -d 'a glue'
complete -c glueup -n "$job new" -l units -x -a 'in mm' -d 'inches or mm'
complete -c glueup -n "$job" -l quiet -d 'no warnings'
complete -c glueup -n '__glueup_command plan clamps glue check dry-fit tables' -l color -x -a 'auto always never' -d 'color'
complete -c glueup -n '__glueup_command plan clamps glue check tables' -l json -d 'machine-readable'

complete -c glueup -n '__glueup_command plan' -l sheet -r -F -d 'the bench sheet'
complete -c glueup -n '__glueup_command plan' -l paper -x -a 'a4 letter' -d 'to print it on'
complete -c glueup -n '__glueup_command plan' -l start -x -d 'open the glue then'
complete -c glueup -n '__glueup_command plan' -l calendar -r -F -d 'when to come back'
complete -c glueup -n '__glueup_command plan' -l from-stage -x -a '2 3 4' -d 'go on from that stage'
complete -c glueup -n '__glueup_command plan' -l details -d 'all of it'
complete -c glueup -n '__glueup_command plan clamps' -l explain -d 'say why'
complete -c glueup -n '__glueup_command plan clamps' -l full -d 'plan full pressure, not only what holds'
complete -c glueup -n '__glueup_command plan clamps' -l stages -x -a '1 2 3 4' -d 'glue up in so many stages'
complete -c glueup -n '__glueup_command plan clamps' -l no-limit -d 'search on without the effort limit'
complete -c glueup -n '__glueup_command plan clamps' -l ascii -d 'plain characters only'
complete -c glueup -n '__glueup_command check' -l expand -d 'the job part by part'

complete -c glueup -n '__glueup_command new' -a 'box panel frame carcass drawer table_base lamination ring veneer bent parts shop'
complete -c glueup -n '__glueup_command new page' -s o -l out -r -F -d 'the file to write'
complete -c glueup -n '__glueup_command new' -l size -x -d 'its outside'
complete -c glueup -n '__glueup_command new' -l species -x -a '(__glueup_rows woods)' -d 'the wood'
complete -c glueup -n '__glueup_command new' -l force -d 'write over a file that is there'

complete -c glueup -n '__glueup_command rehearse' -l live -d 'with glue'
complete -c glueup -n '__glueup_command rehearse' -l log -r -F -d 'keep the times here'
complete -c glueup -n '__glueup_command rehearse' -l learn -d "from the log to the shop file's pace"
complete -c glueup -n '__glueup_command rehearse' -l speed -x -d 'run the clock faster'

complete -c glueup -n '__glueup_command dry-fit' -l openings -x -d 'as measured'
complete -c glueup -n '__glueup_command dry-fit' -l diagonals -x -d 'both'

complete -c glueup -n '__glueup_command tables' -a 'woods glues clamps pressures'
