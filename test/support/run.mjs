// What npm test runs after installing: types, format and lint, unused code, compilation, then every test. The last line counts.
import { spawnSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

const checks = [
  ['types', 'tsc', '--noEmit'],
  ['types of the engine, which knows no Node', 'tsc', '-p', 'app/statistics'],
  ['format and lint', 'biome', 'check', '--error-on-warnings', '.'],
  ['unused code', 'knip'],
  ['compilation', 'tsc', '-p', 'tsconfig.build.json'],
]

const outcomes = checks.map(([name, program, ...args]) => {
  const ended = spawnSync('npx', ['--no-install', program, ...args], { stdio: 'inherit' })
  console.log(`${ended.status === 0 ? 'passed' : 'FAILED'}: ${name}`)
  return ended.status === 0
})

const folder = mkdtempSync(join(tmpdir(), 'cordsift-report-'))
const report = join(folder, 'report.json')
const reporters = ['--reporter=default', '--reporter=json', `--outputFile.json=${report}`]
const run = spawnSync('npx', ['--no-install', 'vitest', 'run', ...reporters], { stdio: 'inherit' })
const { passed, failed } = counted()
rmSync(folder, { recursive: true, force: true })

const allPassed = passed + outcomes.filter((passes) => passes).length
const allFailed = failed + outcomes.filter((passes) => !passes).length
process.exitCode = allFailed === 0 && run.status === 0 ? 0 : 1
console.log(`${allPassed} passed, ${allFailed} failed`)

/** A test file that could not even be read counts as one failure, and so does a run without a report, or one that vitest calls failed. */
function counted() {
  let found = { passed: 0, failed: 0 }
  try {
    const { numPassedTests, numFailedTests, testResults } = JSON.parse(readFileSync(report, 'utf8'))
    const unreadable = testResults.filter(
      (file) => file.status === 'failed' && file.assertionResults.every((one) => one.status !== 'failed'),
    )
    found = { passed: numPassedTests, failed: numFailedTests + unreadable.length }
  } catch (error) {
    console.log(`vitest left no report: ${error}`)
  }
  return run.status !== 0 && found.failed === 0 ? { ...found, failed: 1 } : found
}
