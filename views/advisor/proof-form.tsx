// The questions of the page "What did my sample prove?" in a panel; how the sample was taken stands under a fold.
import type { ProofText } from '../../app/advisor/proof-question.ts'
import type { Problems } from '../../app/kit/problems.ts'
import { ProblemSummary, ShortField } from '../form.tsx'
import { LiveForm } from '../live-form.tsx'

type Name = keyof ProofText
type Props = { asked: ProofText; problems: Problems | undefined }

export function ProofForm({ asked, problems = {} }: Props) {
  const ask = (name: Name, label: string, hint?: string) => (
    <ShortField name={name} label={label} hint={hint} value={asked[name]} problem={problems[name]} />
  )
  return (
    <LiveForm path="/proof">
      <ProblemSummary problems={problems} />
      {ask('lot', 'Cords in the lot')}
      {ask('tested', 'Cords tested')}
      {ask('found', 'Of these, nonconforming')}
      {ask('confidence', 'Be right, of 100 times')}
      {ask('claim', 'I want to claim: fewer than', 'in the lot; a number, or a share such as 1 %')}
      <details open={folded.some((name) => asked[name] !== '' || problems[name] !== undefined)}>
        <summary>Stopped early, or two samples</summary>
        <p>
          <small>Leave empty if the number to test was fixed and all of it was tested.</small>
        </p>
        {ask('planned', 'Cords the plan tests in all')}
        {ask('rejection', 'It rejects the lot at', '1: at the first nonconforming cord')}
        {ask('first', 'Two samples: cords of the first')}
        {ask('accept', 'The first accepts with at most')}
        {ask('firstreject', 'The first rejects from')}
      </details>
      <button type="submit">Work it out</button>
    </LiveForm>
  )
}

const folded = ['planned', 'rejection', 'first', 'accept', 'firstreject'] as const
