// The four states of a cord: each has a word, a shape and a colour, so that none is told by colour alone.

export type CordStateMark = 'conforms' | 'does-not-conform' | 'marginal' | 'not-tested'

const stateWords: Record<CordStateMark, string> = {
  conforms: 'conforms',
  'does-not-conform': 'does not conform',
  marginal: 'marginal',
  'not-tested': 'not tested',
}

/** Shape and word together, as they stand in a line of text. `word` says it more closely where needed, such as "missing". */
export function State({ state, word }: { state: CordStateMark; word?: string }) {
  return (
    <span class={`state ${state}`}>
      <svg class="mark" viewBox="0 0 16 16" aria-hidden="true">
        <Shape state={state} />
      </svg>{' '}
      {word ?? stateWords[state]}
    </span>
  )
}

/** The shape alone, in a box of 16 by 16, to be placed inside a chart; `x` and `y` are its upper left corner, `size` its side. */
export function PlacedShape({ state, x, y, size }: { state: CordStateMark; x: number; y: number; size: number }) {
  return (
    <g class={`shape ${state}`} transform={`translate(${x} ${y}) scale(${size / 16})`}>
      <Shape state={state} />
    </g>
  )
}

/** What the shapes mean, under a picture made of them. */
export function MarkKey() {
  return (
    <p class="mark-key">
      <State state="conforms" /> · <State state="does-not-conform" /> · <State state="marginal" /> ·{' '}
      <State state="not-tested" />
    </p>
  )
}

function Shape({ state }: { state: CordStateMark }) {
  switch (state) {
    case 'conforms':
      return <circle cx="8" cy="8" r="6" fill="none" stroke="currentColor" stroke-width="2.4" />
    case 'does-not-conform':
      return <path d="M8 0l8 8-8 8-8-8z" fill="currentColor" />
    case 'marginal':
      return (
        <>
          <path d="M2 2h12v12H2z" fill="none" stroke="currentColor" stroke-width="2.2" />
          <path d="M2 2h6v12H2z" fill="currentColor" />
        </>
      )
    case 'not-tested':
      return <circle cx="8" cy="8" r="2.6" fill="currentColor" />
  }
}
