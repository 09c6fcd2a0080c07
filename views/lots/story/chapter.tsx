// One chapter of a lot's story: its name, who did it and when, what it says; not begun, begun or done.
import type { Child } from 'hono/jsx'
import type { LotFacts } from '../../../app/lots/record/lot.ts'
import type { Role } from '../../../app/terms/person.ts'
import { moment } from '../../figures.ts'

/** `roles`: those in which the reader may act. */
export type StoryProps = { lot: LotFacts; roles: Role[]; currency: string }

type Props = {
  title: string
  /** who closed the chapter, and when; one that many people wrote is only `done` */
  signed?: { by: string; at: Date } | undefined
  done?: boolean
  /** the chapter that holds the next act */
  open?: boolean
  children?: Child
}

export function Chapter({ title, signed, done = signed !== undefined, open, children }: Props) {
  const told = done || open
  return (
    <li class={open ? 'chapter open' : told ? 'chapter' : 'chapter ahead'}>
      <h2>
        {title} {!told && <small>not yet</small>}
      </h2>
      {signed && (
        <p class="signed">
          {signed.by}, {moment(signed.at)}
        </p>
      )}
      {children}
    </li>
  )
}
