import type { ConditionId } from '../records/records.js';

/** A condition as a clinician reads it. */
export const conditionNames: Readonly<Record<ConditionId, string>> = {
  none: 'none',
  'cerebral-palsy': 'cerebral palsy',
  hemiplegia: 'hemiplegia',
  'myelomeningocele-high': 'myelomeningocele, high lesion',
  'myelomeningocele-low': 'myelomeningocele, low lesion',
  'muscular-dystrophy': 'muscular dystrophy',
  'spinal-muscular-atrophy': 'spinal muscular atrophy',
  arthrogryposis: 'arthrogryposis',
  clubfoot: 'clubfoot',
  'down-syndrome': 'Down syndrome',
  'idiopathic-scoliosis': 'idiopathic scoliosis',
  'neuromuscular-scoliosis': 'neuromuscular scoliosis',
  'positional-head-asymmetry': 'positional head asymmetry',
  'craniosynostosis-operated': 'craniosynostosis, operated',
  hypotonia: 'hypotonia',
  'flexible-flat-foot': 'flexible flat foot',
  'hip-dysplasia': 'hip dysplasia',
  'leg-length-difference': 'leg length difference',
  other: 'other',
};
