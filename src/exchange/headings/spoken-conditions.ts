import type { ConditionId } from '../../records/records.js';

/**
 * Diagnoses as clinics write them, in six languages, by the condition that changes a prior or a caution. A maintained
 * list: abbreviations are common practice, no source. Phrases are found inside a longer text; the longest wins.
 */
export const spokenConditions: Readonly<Partial<Record<ConditionId, string>>> = {
  none: 'no diagnosis|healthy|well child|none|ohne diagnose|gesund|ohne befund|aucun diagnostic|sain|sano|sana|gezond|geen diagnose|nessuna diagnosi|normal development',
  'cerebral-palsy':
    'cerebral palsy|cp|bscp|ccp|diplegia|diplegic|quadriplegia|quad|quadriplegic|tetraplegia|spastic diplegia|spastic quad|bilateral cp|triplegia|dyskinetic cp|athetoid|dystonic cp|ataxic cp|spastic cp|diplegic cp|quad cp|4 limb cp|four limb cp|total body cp|hie|spasticity|spastic|pvl|' +
    'zerebralparese|cerebralparese|icp|infantile zerebralparese|infantile cerebralparese|spastik|diparese|tetraparese|spastische diparese|diplegie|tetraplegie|bilaterale cp|bs cp|spastische|tetraspastik|bilateral spastische|icp bilateral|' +
    'paralysie cerebrale|imc|imoc|infirmite motrice cerebrale|pc|quadriplegie|quadriparesie|diparesie|diplegie spastique|paralysie cerebrale bilaterale|triplegie|' +
    'paralisis cerebral|pci|paralisis cerebral infantil|diplejia|cuadriplejia|tetraparesia|diparesia|tetraplejia|diplejia espastica|paralisis cerebral espastica|' +
    'cerebrale parese|spastische parese|diplegie|quadriplegie|bilaterale spastische parese|' +
    'paralisi cerebrale infantile|paralisi cerebrale|tetraparesi|diparesi|tetraplegia|diparesi spastica|tetraparesi spastica',
  hemiplegia:
    'hemiplegia|hemi|hemiplegic|hemiparesis|unilateral cp|hemi cp|hemiplegic cp|monoplegia|right hemi|left hemi|rhemi|lhemi|usc p|uscp|' +
    'hemiparese|halbseitenlähmung|unilaterale cp|hemiplegie|halbseitig|hemispastik|armbetonte hemiparese|hemiparesie|monoplegie|pc unilaterale|paralysie cerebrale unilaterale|hemiplejia|hemiparesia|halfzijdige verlamming|unilaterale spastische parese|emiplegia|emiparesi|emi|monoparesi',
  'myelomeningocele-low':
    'spina bifida|myelomeningocele|mmc|sb|sbo|lipomyelomeningocele|lmmc|myelo|spinal dysraphism|lipomeningocele|lipomyelocele|meningocele|spina bifida occulta|open spina bifida|sacral agenesis|caudal regression|tethered cord|' +
    'offener rücken|meningomyelozele|myelomeningozele|mmz|spina bifida aperta|sb mmc|myelomeningocele basse|dysraphisme|spina|sb lipome|mielomeningocele|espina bifida|mielo|disrafismo|lipomielomeningocele|open rug|' +
    'meningomyelocele|lipoom',
  'muscular-dystrophy':
    'muscular dystrophy|dmd|duchenne|duchenne md|becker|bmd|cmd|lgmd|congenital muscular dystrophy|limb girdle|myotonic dystrophy|dystrophy|ullrich|bethlem|congenital myopathy|myopathy|' +
    'muskeldystrophie|duchenne muskeldystrophie|myopathie|myopathie de duchenne|dystrophie musculaire|dystrophinopathie|steinert|miopatia|distrofia muscular|duchenne distrofia|spierdystrofie|spierziekte duchenne|spierziekte|distrofia muscolare|distrofia|miopatia congenita',
  'spinal-muscular-atrophy':
    'spinal muscular atrophy|sma|sma 1|sma 2|sma 3|sma i|sma ii|sma iii|sma type 1|sma type 2|sma type 3|spinale muskelatrophie|amyotrophie spinale|amyotrophie spinale infantile|asi|ams|atrofia muscular espinal|ame|spinale musculaire atrofie|atrofia muscolare spinale|sma typ 2|sma typ 1|sma typ 3|sma tipo 2|sma tipo 1|sma tipo 3',
  arthrogryposis:
    'arthrogryposis|amc|arthrogrypose|arthrogryposis multiplex congenita|artrogriposis|artrogriposi|artrogrypose|distal arthrogryposis',
  clubfoot:
    'clubfoot|club foot|club feet|ctev|talipes|cte v|clubfeet|tev|talipes equinovarus|bilateral talipes|congenital talipes|klumpfuß|klumpfüße|klumpfuss|pes equinovarus|pied bot|pieds bots|pbve|pied bot varus equin|pbve bilateral|pie zambo|pies zambos|pie equinovaro|pie bot|zambo|klompvoet|klompvoeten|piede torto|piedi torti|ptc|piede torto congenito|pec',
  'down-syndrome':
    'down syndrome|downs syndrome|down s syndrome|trisomy 21|t21|down s|downs|ds|tri 21|trisomy21|down|trisomie 21|down syndrom|syndrome de down|trisomia 21|sindrome de down|syndroom van down|downsyndroom|sindrome di down|ts21|morbus down|mosaic down',
  'idiopathic-scoliosis':
    'idiopathic scoliosis|ais|adolescent idiopathic scoliosis|jis|juvenile idiopathic scoliosis|iis|scoliosis|infantile idiopathic scoliosis|early onset scoliosis|eos|scol|idiopathische skoliose|adoleszente idiopathische skoliose|skoliose|scoliose idiopathique|scoliose|sia|escoliosis idiopatica|escoliosis|idiopathische scoliose|scoliosi idiopatica|scoliosi|escoliosis idiopatica del adolescente|ivs|kyphosis|hyperkyphosis',
  'neuromuscular-scoliosis':
    'neuromuscular scoliosis|nms|nm scoliosis|neurogenic scoliosis|neuromuskuläre skoliose|neurogene skoliose|scoliose neuromusculaire|scoliose neurologique|escoliosis neuromuscular|neuromusculaire scoliose|neurogene scoliose|scoliosi neuromuscolare|syndromic scoliosis',
  'positional-head-asymmetry':
    'plagiocephaly|plagio|brachycephaly|brachy|positional plagiocephaly|positional head|deformational plagiocephaly|flat head|head asymmetry|dp|plagiocephalic|scaphocephaly positional|plagiozephalus|lagerungsplagiozephalus|brachyzephalus|plagiozephalie|schädelasymmetrie|brachyzephalie|lagebedingte plagiozephalie|plagiocephalie|brachycephalie|plagiocephalie positionnelle|plagiocefalia|plagiocefalia posicional|braquicefalia|plagiocefalie|brachycefalie|voorkeurshouding|plagiocefalia posizionale|brachicefalia|asymmetrical head',
  'craniosynostosis-operated':
    'craniosynostosis|sagittal synostosis|synostosis|cranio synostosis|metopic|kraniosynostose|sagittalnahtsynostose|craniostenose|craniosynostose|craneosinostosis|craniosinostosis|craniosinostosi|scaphocephaly|trigonocephaly|post op cranio',
  hypotonia:
    'hypotonia|low tone|hypotonic|low muscle tone|floppy|ligamentous laxity|hypermobility|jhs|eds|ehlers danlos|hypermobile|muskuläre hypotonie|hypotonie|hypoton|hypotone|hypotonie musculaire|hyperlaxite|hipotonia|hiperlaxitud|hypotoon|lage tonus|hypermobiliteit|ipotonia|iperlassita|gdd hypotonia|benign hypotonia|joint laxity|global hypotonia|muskelhypotonie',
  'flexible-flat-foot':
    'flexible flat foot|flat foot|flat feet|pes planus|pes planovalgus|pronated feet|planovalgus|ppv|pronation|hyperpronation|flatfeet|flatfoot|plano valgus|knickfuß|senkfuß|plattfuß|knick senkfuß|knickplattfuß|knicksenkfuß|plattfüße|pes valgus|pied plat|pieds plats|pied plat valgus|pes plano valgus|pieds plats valgus|pie plano|pies planos|pie plano valgo|pies planos valgos|platvoet|platvoeten|knikvoet|knikplatvoet|knikvoeten|piede piatto|piedi piatti|piede piatto valgo|piattismo|mobile flat feet',
  'hip-dysplasia':
    'hip dysplasia|ddh|developmental dysplasia of the hip|cdh|dislocated hip|dysplastic hip|hip dislocation|clicky hips|clicky hip|hüftdysplasie|hüftluxation|dysplasie de hanche|luxation de hanche|lch|luxation congenitale de hanche|displasia de cadera|displasia cadera|luxacion de cadera|ddc|heupdysplasie|displasia dell anca|displasia congenita anca|lca|displasia anca|lussazione anca|displasia evolutiva anca|dda',
  'leg-length-difference':
    'leg length difference|leg length discrepancy|lld|limb length discrepancy|leg discrepancy|short leg|hemihypertrophy|hemihyperplasia|pffd|fibular hemimelia|beinlängendifferenz|bld|beinverkürzung|inegalite de longueur|ilmi|inegalite membres inferieurs|inegalite de longueur des membres inferieurs|dismetria|disimetria|beenlengteverschil|blv|eterometria|eterometria arti|dismetria arti inferiori|lengteverschil benen|anisomelie|disimetria mmii',
};

/** Myelomeningocele at L3 or above belongs to the high group (level as written: 'MMC L3', 'Th12', 'T10-L1'). */
export const HIGH_LEVELS =
  /\b(?:t|th|d)\s?\d{1,2}\b|\bl\s?[123]\b|\b(?:thoracic|thorakal|thoracique|thoracaal|toracic[ao]|high lumbar|high)\b/;
