// Who did what with this lot, the latest first; every cord's entries stand in the audit itself.
import type { AuditLine } from '../../../app/audit/list.ts'
import { lasting, moment } from '../../figures.ts'
import { Topic } from '../../frame.tsx'
import { didWords } from '../../words/audit.ts'

type Props = { lines: AuditLine[]; lotId: number; clockBehind: number | undefined }

export function AuditTrail({ lines, lotId, clockBehind }: Props) {
  return (
    <Topic title="Who did what">
      <ul class="trail">
        {lines.map(({ at, personName, personRole, action }) => (
          <li>
            {moment(at)}: {personName}
            {personRole && `, ${personRole}`} {didWords(action)}
          </li>
        ))}
      </ul>
      {clockBehind !== undefined && (
        <p class="caution">
          The machine’s clock stood up to {lasting(clockBehind)} behind while this lot was worked on. No time here goes
          back, so some are later than they truly were; the order of the acts is right.
        </p>
      )}
      <p class="screen-only">
        <a href={`/audit?lot=${lotId}`}>Full audit trail</a>
      </p>
    </Topic>
  )
}
