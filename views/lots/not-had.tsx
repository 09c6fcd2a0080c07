// What pages say of drawn cords that cannot be had: those not decided, the rulings, the recounts, and what is proven for both answers.
import type { NotHad } from '../../app/lots/record/not-had.ts'
import type { BothAnswers } from '../../app/lots/rules/undecided.ts'
import { confidenceOf, counted, moment, whole } from '../figures.ts'
import { Fact, Facts } from '../form.tsx'
import { notHadWords, rulingWords } from '../words/not-had.ts'

/** 12, 40 and 317. */
export function positionsOf(cords: readonly { position: number }[]): string {
  const names = cords.map(({ position }) => whole(position))
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`
}

/** `cords` is how many the lot has by the latest recount, `size` how many were counted at the dock. */
type Props = {
  lotId: number
  notHad: Pick<NotHad, 'undecided' | 'rulings' | 'recounts'>
  cords: number
  size: number
}

export function NotHadList({ lotId, notHad: { undecided, rulings, recounts }, cords, size }: Props) {
  if (undecided.length + rulings.length + recounts.length === 0) return null
  return (
    <section class="not-had">
      <h3>Drawn cords that could not be had</h3>
      {recounts.length > 0 && (
        <p>
          {counted(recounts.length, 'drawn place was', 'drawn places were')} empty: the lot has {whole(cords)} of the{' '}
          {counted(size, 'cord')} counted at the dock. What is proven is of these {whole(cords)}; the frozen plan stays.
        </p>
      )}
      <ul>
        {recounts.map(({ position, size: counted, reason, standIn, by, at }) => (
          <li>
            <Cord lotId={lotId} position={position} />: empty, {whole(counted)} counted again by {by}, {moment(at)}: “
            {reason}”. <Reserve lotId={lotId} standIn={standIn} />
          </li>
        ))}
        {undecided.map(({ position, kind, note, by, at }) => (
          <li>
            <Cord lotId={lotId} position={position} />: <b>{wordOf(kind)}, not decided.</b> Reported by {by},{' '}
            {moment(at)}: “{note}”.
          </li>
        ))}
        {rulings.map(({ position, kind, ruling, reason, known, standIn, by, at }) => (
          <li>
            <Cord lotId={lotId} position={position} />: {wordOf(kind)}, and {rulingWords[ruling]}, ruled by {by},{' '}
            {moment(at)}: “{reason}”. Known then: {knownWords(known)}. <Reserve lotId={lotId} standIn={standIn} />
          </li>
        ))}
      </ul>
    </section>
  )
}

function Cord({ lotId, position }: { lotId: number; position: number }) {
  return <a href={`/lots/${lotId}/cords/${position}`}>cord {whole(position)}</a>
}

function Reserve({ lotId, standIn }: { lotId: number; standIn: number | undefined }) {
  if (standIn === undefined) return null
  return (
    <>
      In its place <Cord lotId={lotId} position={standIn} />.
    </>
  )
}

function wordOf(kind: NotHad['undecided'][number]['kind']): string {
  return kind === 'tested' ? kind : notHadWords[kind]
}

/** What was known of the sample when a ruling was made. */
export function knownWords({ recorded, found, undecided }: NotHad['rulings'][number]['known']): string {
  return `${whole(recorded)} recorded in the sample, ${whole(found)} not conforming, ${whole(undecided)} not decided`
}

type AnswersProps = { answers: AnswersAsKept | undefined; lotSize: number }
type AnswersAsKept = Omit<BothAnswers, 'ifConforming' | 'ifNonconforming'> & Partial<BothAnswers>

/** Upper bounds for both answers, and what holds of them. */
export function BothAnswersFacts({ answers, lotSize }: AnswersProps) {
  if (!answers) return null
  const { undecided, replaced, ifConforming, ifNonconforming, confidence } = answers
  if (ifConforming === undefined && ifNonconforming === undefined) return null
  const all = undecided + replaced
  const one = all === 1
  const most = (bound: number | undefined) =>
    bound === undefined ? 'not known: the plan would have gone on' : `${whole(bound)} of ${whole(lotSize)}`
  return (
    <>
      <Facts>
        <Fact
          name={`Do not conform in the whole lot at most, if ${one ? 'that cord conforms' : `those ${whole(all)} cords conform`}`}
        >
          {most(ifConforming)}
        </Fact>
        <Fact name={`Do not conform in the whole lot at most, if ${one ? 'it does not' : 'they do not'}`}>
          {most(ifNonconforming)}
        </Fact>
      </Facts>
      <p>
        <small>
          {undecided > 0 && `${counted(undecided, 'drawn cord is', 'drawn cords are')} not decided. `}
          {replaced > 0 &&
            `In place of ${counted(replaced, 'drawn cord')} a reserve counts: the first number holds where ${replaced === 1 ? 'that cord' : 'those cords'} went for a reason that has nothing to do with what ${replaced === 1 ? 'it was' : 'they were'}; the second holds in any case. `}
          Each an exact one-sided bound at {confidenceOf(confidence)} confidence, by the hypergeometric law.
        </small>
      </p>
    </>
  )
}
