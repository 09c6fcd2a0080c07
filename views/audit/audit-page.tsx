// Who did what when, the newest first.
import type { AuditLine } from '../../app/audit/list.ts'
import type { Problems } from '../../app/kit/problems.ts'
import { lasting, moment } from '../figures.ts'
import { Field, ProblemSummary } from '../form.tsx'
import { type Frame, Page } from '../layout.tsx'
import { DataTable } from '../table.tsx'

type Props = Frame & {
  /** the subject asked for; empty: everything */
  about: string
  lines: AuditLine[]
  /** id to go on from, where there are older lines */
  older?: number | undefined
  problems?: Problems | undefined
}

const columns = [
  { head: 'When' },
  { head: 'Who', text: true },
  { head: 'Did', text: true },
  { head: 'To', text: true },
  { head: 'Details', text: true },
]

export function AuditPage({ about, lines, older, problems, viewer, firm, done }: Props) {
  return (
    <Page title="Audit" current="audit" viewer={viewer} firm={firm} done={done}>
      <h1>Audit</h1>
      <p>
        Every line was written in one piece with the change that it tells of. Nobody can change or remove one, and
        neither can the service.
      </p>
      <ProblemSummary problems={problems} />
      <form method="get" action="/audit">
        <Field
          name="about"
          label="Only about"
          hint="such as lot/17, supplier/3, item/2 or people/1; empty: everything"
          value={about}
          problem={problems?.about}
        />
        <button type="submit">Show</button>
      </form>
      {lines.length === 0 ? (
        <p>There is no such line.</p>
      ) : (
        <DataTable columns={columns} rows={lines.map((line) => ({ id: `line-${line.id}`, cells: cellsOf(line) }))} />
      )}
      {older !== undefined && (
        <p>
          <a href={`/audit?about=${encodeURIComponent(about)}&before=${older}`}>Older lines</a>
        </p>
      )}
    </Page>
  )
}

function cellsOf({ at, personName, personRole, action, subject, detail, clockBehind }: AuditLine) {
  const who = personRole === null ? personName : `${personName}, ${personRole}`
  const when = clockBehind === null ? moment(at) : `${moment(at)} (the clock stood ${lasting(clockBehind)} behind)`
  return [when, who, wordsOf(action), subject, <Detail of={detail} />]
}

/** lot.stood-in reads as: lot stood in. */
function wordsOf(action: string): string {
  return action.replace(/[.-]/g, ' ')
}

function Detail({ of }: { of: unknown }) {
  if (typeof of !== 'object' || of === null) return <>{JSON.stringify(of)}</>
  const said = Object.entries(of).map(([name, value]) => `${spaced(name)}: ${shown(value)}`)
  return <span class="said">{said.join('; ')}</span>
}

function shown(value: unknown): string {
  return typeof value === 'string' ? value : JSON.stringify(value)
}

/** crosstalkMargin reads as: crosstalk margin. */
function spaced(name: string): string {
  return name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
}
