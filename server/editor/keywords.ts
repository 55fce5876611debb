import type { Flow } from '../syntax/tree.ts';

type Keyword = Extract<Flow, { form: 'o-word' }>['keyword'] | Exclude<Flow['form'], 'o-word'>;

/** Flow of both dialects, for people. */
export const keywordMeanings: Readonly<Record<Keyword, { readonly shown: string; readonly title: string }>> =
  {
    sub: { shown: 'sub', title: 'a subroutine begins; it runs when it is called.' },
    endsub: { shown: 'endsub', title: 'the subroutine ends and goes back to its caller.' },
    call: { shown: 'call', title: 'runs a subroutine; arguments arrive in #1, #2, …' },
    return: { shown: 'return', title: 'leaves the subroutine here.' },
    if: { shown: 'if', title: 'runs what follows when the condition is not 0.' },
    elseif: { shown: 'elseif', title: 'tried when the conditions before it were 0.' },
    else: { shown: 'else', title: 'runs when no condition before it held.' },
    endif: { shown: 'endif', title: 'the end of the if.' },
    while: { shown: 'while', title: 'repeats while the condition is not 0, tested first.' },
    endwhile: { shown: 'endwhile', title: 'the end of the loop; the condition is tested again.' },
    do: { shown: 'do', title: 'repeats while the condition at its end is not 0; runs at least once.' },
    repeat: { shown: 'repeat', title: 'runs its blocks so many times.' },
    endrepeat: { shown: 'endrepeat', title: 'the end of the repetition.' },
    break: { shown: 'break', title: 'leaves the loop.' },
    continue: { shown: 'continue', title: 'goes to the next turn of the loop.' },
    goto: { shown: 'GOTO', title: 'goes on at the block with this N number.' },
    'if-then': { shown: 'IF … THEN', title: 'runs one statement when the condition holds.' },
    'while-do': {
      shown: 'WHILE … DO',
      title: 'repeats up to the END of the same number while the condition holds.',
    },
    end: { shown: 'END', title: 'the end of the loop of the same number.' },
  };
