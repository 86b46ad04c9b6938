# Completion of barm for fish: barm itself knows what may come next.
function __barm_complete
    set -l words (commandline -opc) (commandline -ct)
    barm complete -- $words[2..-1] 2>/dev/null
end
complete -c barm -f -a '(__barm_complete)'
