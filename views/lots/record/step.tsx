// One step of a lot's record: its name, who did it and when, what it says; not begun, begun or done.
import type { Child } from 'hono/jsx'
import type { LotFacts } from '../../../app/lots/record/lot.ts'
import type { Role } from '../../../app/terms/person.ts'
import { moment } from '../../figures.ts'

/** `roles`: those in which the reader may act. */
export type LotRecordProps = { lot: LotFacts; roles: Role[]; currency: string }

type Props = {
  title: string
  /** who closed the step, and when; one that many people wrote is only `done` */
  signed?: { by: string; at: Date } | undefined
  done?: boolean
  /** the step that holds the next act */
  open?: boolean
  children?: Child
}

export function RecordStep({ title, signed, done = signed !== undefined, open, children }: Props) {
  const told = done || open
  return (
    <li class={open ? 'step open' : told ? 'step' : 'step ahead'}>
      <h2>
        {title} {!told && <small>not yet</small>}
      </h2>
      <div>{children}</div>
      <p class="signed">{signed && `${signed.by}, ${moment(signed.at)}`}</p>
    </li>
  )
}
