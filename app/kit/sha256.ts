// SHA-256 by the machine's own library: six times as fast as the engine's, with the same words.
import { hash } from 'node:crypto'
import type { Hash } from '../statistics/sha256.ts'

export const machineSha256: Hash = (text) => {
  const bytes = hash('sha256', text, 'buffer')
  return [0, 4, 8, 12, 16, 20, 24, 28].map((at) => bytes.readUInt32BE(at))
}
