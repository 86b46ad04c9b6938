# Completion of barm for fish: barm itself knows what may come next.
function __barm_complete
    set -l words (commandline -opc)
    set -l last (commandline -ct)
    # A word that was begun with a quote is asked for without it, and blanks without their strokes.
    if string match -qr '^["\']' -- "$last"
        set last (string sub -s 2 -- "$last")
    else
        set last (string unescape -- "$last")
    end
    barm complete -- $words[2..-1] "$last" 2>/dev/null
end
complete -c barm -f -a '(__barm_complete)'
