// What slips through, as a hundred lots: the reader's way beside the advised one.
import type { Chance, Comparison, OpenAlternative } from '../../app/advisor/compare.ts'
import type { Question } from '../../app/advisor/question.ts'
import { HundredLots } from '../charts/hundred-lots.tsx'
import { counted, perHundred } from '../figures.ts'
import { todayName } from './reasons.ts'
import { suchLots } from './words.ts'

type Props = { question: Question; comparison: Comparison }

export function HundredsFigure({ question, comparison: { advised, today, alternatives } }: Props) {
  const none = alternatives.find(({ kind }) => kind === 'no-test')
  const beside: OpenAlternative | undefined = today ?? none
  return (
    <>
      <h2>Of 100 {suchLots(question)}, this many slip through</h2>
      <div class="hundreds">
        {beside && (
          <Hundred
            id="hundred-today"
            name={today ? `Your ${todayName(question, today)}` : 'No test'}
            tested={beside.sampleSize}
            chance={beside.acceptance}
            wish={1 - question.confidence}
          />
        )}
        <Hundred
          id="hundred-advised"
          name="Recommended"
          tested={advised.sampleSize}
          chance={advised.acceptance}
          wish={1 - question.confidence}
        />
      </div>
    </>
  )
}

type HundredProps = { id: string; name: string; tested: number; chance: Chance; wish: number }

function Hundred({ id, name, tested, chance, wish }: HundredProps) {
  const many = perHundred(chance.yes, chance.no, wish)
  return (
    <figure class="chart">
      <figcaption>
        <b>{name}</b>, {counted(tested, 'cord')}: <b>{many}</b>
      </figcaption>
      <HundredLots id={id} title={name} description={`${many} of 100 slip through`} chance={chance.yes} />
    </figure>
  )
}
