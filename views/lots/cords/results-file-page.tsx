// Results from a file: uploaded or pasted, recorded whole or not at all.

import type { Problems, Typed } from '../../../app/kit/problems.ts'
import type { LotRecord } from '../../../app/lots/record/lot.ts'
import type { BadRow, BadRows } from '../../../app/lots/rules/file/bad-rows.ts'
import { counted, whole } from '../../figures.ts'
import { Field, FormKey, ProblemSummary, TextArea } from '../../form.tsx'
import { type Frame, Page } from '../../layout.tsx'
import { DataTable } from '../../table.tsx'
import { sentenceOf } from '../../words/refusals.ts'

type Props = Frame & {
  lot: LotRecord
  formKey: string
  /** rows that are in the way of recording the file */
  bad?: BadRows | undefined
  problems?: Problems | undefined
  typed?: Typed | undefined
}

export function ResultsFilePage({ viewer, firm, done, lot, formKey, bad, problems, typed }: Props) {
  const chosen = typed?.file
  return (
    <Page title={`Results of lot ${lot.id} from a file`} current="lots" viewer={viewer} firm={firm} done={done}>
      <h1>
        Results of <a href={`/lots/${lot.id}`}>lot {lot.id}</a> from a file
      </h1>
      <p>
        {counted(lot.progress.toDo, 'drawn cord is', 'drawn cords are')} not recorded yet. A file is recorded whole or
        not at all.
      </p>
      <ProblemSummary problems={problems} />
      {bad && <Refused bad={bad} />}
      <form method="post" action={`/lots/${lot.id}/file`} enctype="multipart/form-data">
        <FormKey value={formKey} />
        <Field
          name="file"
          label="File"
          type="file"
          hint={chosen && `You chose ${chosen}: choose it again`}
          problem={problems?.file}
        />
        <TextArea name="text" label="Or paste its lines here" value={typed?.text} problem={problems?.text} rows={8} />
        <button type="submit">Record this file</button>
      </form>
      <Columns />
    </Page>
  )
}

function Refused({ bad: { named, inAll, stopped } }: { bad: BadRows }) {
  const more = inAll - named.length - (stopped ? 1 : 0)
  return (
    <section class="problems" role="alert">
      <p>
        <b>
          Nothing was recorded: {counted(inAll, 'row is', 'rows are')} in the way. Correct the file and send it again.
        </b>
      </p>
      <ul>
        {named.map((row) => (
          <Bad row={row} />
        ))}
        {more > 0 && <li>and {counted(more, 'row')} more</li>}
        {stopped && <Bad row={stopped} />}
      </ul>
    </section>
  )
}

function Bad({ row: { line, causes } }: { row: BadRow }) {
  return (
    <li>
      {line === 0 ? '' : `Line ${whole(line)}: `}
      {causes.map(sentenceOf).join('; ')}
    </li>
  )
}

function Columns() {
  return (
    <section>
      <h2>What the file holds</h2>
      <p>
        Text in columns, separated by commas, semicolons or tabs. The first line names the columns, in any order; each
        further line is one drawn cord.
      </p>
      <DataTable
        columns={[{ head: 'Column' }, { head: 'What it holds', text: true }, { head: 'Such as', text: true }]}
        rows={columns.map(([name, holds, example]) => ({ cells: [name, holds, <code>{example}</code>] }))}
      />
      <p>Lines of an example:</p>
      <pre>
        <code>{example}</code>
      </pre>
    </section>
  )
}

const columns: [string, string, string][] = [
  ['position', 'number of the drawn cord', '317'],
  ['crosstalk margin', 'dB above the limit, below it with a minus; empty only with a failed wire map or visual', '1.7'],
  ['return loss margin', 'likewise; with a decimal comma only where columns are not separated by commas', '-0.04'],
  ['wire map', 'in order or at fault', 'in order'],
  ['visual', 'in order or at fault', 'in order'],
  ['tester serial', 'serial number of the tester; may be empty', 'T-204'],
  ['carton', 'mark of the carton; the column may be missing', 'C 7'],
  ['spool', 'mark of the cable’s spool; the column may be missing', 'S 12'],
]

const example = `position,crosstalk margin,return loss margin,wire map,visual,tester serial
317,1.7,-0.04,in order,in order,T-204
322,,,at fault,in order,T-204`
