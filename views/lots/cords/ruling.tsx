// The manager's ruling on a drawn cord that is gone or spoiled here, and what stands where it was made.
import { lengths } from '../../../app/kit/limits.ts'
import type { Problems, Typed } from '../../../app/kit/problems.ts'
import type { LotRecord } from '../../../app/lots/record/lot.ts'
import type { RulingFacts } from '../../../app/lots/record/not-had.ts'
import type { Role } from '../../../app/terms/person.ts'
import { moment, whole } from '../../figures.ts'
import { ChoiceField, Fact, Facts, FormKey, TextArea } from '../../form.tsx'
import { rulingWords } from '../../words/not-had.ts'
import { mayDo } from '../may.ts'
import { BothAnswersFacts, knownWords } from '../not-had.tsx'

export function Ruled({ ruling: { ruling, reason, known, by, at } }: { ruling: RulingFacts }) {
  return (
    <section>
      <h2>Ruled: {rulingWords[ruling]}</h2>
      <Facts>
        <Fact name="Reason">{reason}</Fact>
        <Fact name="Known at that moment">{knownWords(known)}</Fact>
        <Fact name="Ruled">
          by {by}, {moment(at)}
        </Fact>
      </Facts>
    </section>
  )
}

type Props = {
  lot: LotRecord
  cord: { position: number }
  roles: Role[]
  /** number of the report that the reader sees */
  entry: number
  formKey: string
  problems: Problems | undefined
  typed: Typed | undefined
}

export function RulingNeeded(props: Props) {
  const { progress, notHad, bothAnswers, cords, acts } = props.lot
  const known = {
    recorded: progress.sampleRecorded,
    found: progress.sampleNonconforming,
    undecided: notHad.undecided.length,
  }
  return (
    <section id="ruling">
      <h2>Not decided</h2>
      {acts.rule && (
        <p>
          No verdict accepts this lot while the cord is not decided, and the bench goes on. A manager rules on it, once
          and for good.
        </p>
      )}
      <Facts>
        <Fact name="Known now">{knownWords(known)}</Fact>
      </Facts>
      <BothAnswersFacts answers={bothAnswers} lotSize={cords} />
      {mayDo('rule', props) && <RulingForm {...props} />}
    </section>
  )
}

const rulings = [
  {
    value: 'reserve',
    label: 'The next reserve of the draw takes its place',
    note: 'for a cord that went for a reason that has nothing to do with what it was; both bounds stay on the record',
  },
  { value: 'nonconforming', label: 'It counts as not conforming', note: 'holds whatever it was' },
]

function RulingForm({ lot, cord, entry, formKey, problems, typed = {} }: Props) {
  const own = typed.ruling !== undefined
  return (
    <form method="post" action={`/lots/${lot.id}/cords/${cord.position}/ruling`}>
      <FormKey value={formKey} />
      <input type="hidden" name="entryNumber" value={own ? (typed.entryNumber ?? entry) : entry} />
      <ChoiceField
        name="ruling"
        label={`What becomes of cord ${whole(cord.position)}`}
        value={typed.ruling}
        problem={problems?.ruling}
        options={rulings}
        required
      />
      <TextArea
        id={own ? 'field-reason' : 'field-ruling-reason'}
        name="reason"
        label="Why"
        hint="What is known at this moment is kept beside it."
        value={own ? typed.reason : undefined}
        problem={own ? problems?.reason : undefined}
        rows={2}
        maxlength={lengths.note}
        required
      />
      <button type="submit">Rule on this cord</button>
    </form>
  )
}
