// The parts a page is laid out with: question or action beside the answer, figures under it, one fold a topic.
import type { Child } from 'hono/jsx'

type ColumnsProps = {
  /** the question or the action */
  panel: Child
  /** left: the reader asks; right: the reader acts on what stands at the left */
  side: 'left' | 'right'
  /** what stands before the panel where a narrow screen shows all below each other */
  top?: Child
  /** sums the question up in one line; on a narrow screen the panel is folded behind it */
  summary?: Child
  /** a folded panel is shown open, as where its fields need correcting */
  open?: boolean
  children?: Child
}

/** Two columns from 900 px on, below each other on a narrow screen. */
export function Columns({ panel, side, top, summary, open, children }: ColumnsProps) {
  const rest = <div class="rest">{children}</div>
  return (
    <div class={`columns ${side}`}>
      {top && <div class="top">{top}</div>}
      {side === 'right' && !top && rest}
      <Panel summary={summary} open={open}>
        {panel}
      </Panel>
      {(side === 'left' || top) && rest}
    </div>
  )
}

function Panel({
  summary,
  open,
  children,
}: {
  summary: Child | undefined
  open: boolean | undefined
  children: Child
}) {
  if (!summary) return <div class="panel">{children}</div>
  return (
    <details class="panel folded" open={open}>
      <summary>{summary}</summary>
      {children}
    </details>
  )
}

/** The figures under an answer, four at most. */
export function Tiles({ children }: { children?: Child }) {
  return <dl class="tiles">{children}</dl>
}

export function Tile({ name, note, children }: { name: Child; note?: Child; children?: Child }) {
  return (
    <div class="tile">
      <dt>{name}</dt>
      <dd>
        {children}
        {note && <small>{note}</small>}
      </dd>
    </div>
  )
}

/** The answer with the one next step beside it. */
export function Headline({ answer, children }: { answer: Child; children?: Child }) {
  return (
    <div class="headline">
      <p class="answer">{answer}</p>
      {children}
    </div>
  )
}

type TopicProps = { title: Child; id?: string; open?: boolean | undefined; children?: Child }

/** What goes beyond the answer, folded: one topic each. */
export function Topic({ title, id, open, children }: TopicProps) {
  return (
    <details class="topic" id={id} open={open}>
      <summary>{title}</summary>
      {children}
    </details>
  )
}
