// Who did what with this lot, the latest first; every cord's entries stand in the audit itself.
import type { AuditLine } from '../../../app/audit/list.ts'
import { moment } from '../../figures.ts'

export function AuditTrail({ lines, lotId }: { lines: AuditLine[]; lotId: number }) {
  return (
    <section>
      <h2>Who did what</h2>
      <ul class="trail">
        {lines.map(({ at, personName, personRole, action }) => (
          <li>
            {moment(at)}: {personName}
            {personRole && `, ${personRole}`}: {action.replace(/[.-]/g, ' ')}
          </li>
        ))}
      </ul>
      <p class="screen-only">
        <a href={`/audit?about=lot%2F${lotId}`}>With all that was said</a>
      </p>
    </section>
  )
}
