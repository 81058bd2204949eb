import type { Vocabulary } from '../vocabulary.js';

export const en: Vocabulary = {
  fields: {
    'child.id':
      'id|child id|patient id|pt id|pat id|hosp no|hosp num|hospital no|hospital number|hospital num|unit no|unit number|mrn|chi|chi no|nhs no|nhs number|case no|case number|chart no|chart number|chart|record no|record number|file no|file number|med rec no|ref|ref no|reference|local id|client id|client no|patient ref|pt ref|account no|our ref|urn|pin',
    'child.name':
      'full name|name of child|name of patient|child s name|patient s name|surname forename|last first|name surname first|initials|child initials|patient initials|init|inits',
    'child.first_name':
      'first name|forename|forenames|given name|given names|christian name|first|fname|given',
    'child.last_name': 'surname|last name|family name|lname|last name only|last',
    'child.birth_date':
      'birth|born|dob|d o b|bd|birthday|b day|birthdate|date birth|birth date|year of birth|yob|birth year|y o b|born in|birth yr',
    'child.sex': 'sex|gender|m f|f m|boy girl|b g|male female|girl boy|sex at birth',
    'child.gestation_weeks':
      'gestation|gestation weeks|gestational age|ga|weeks at birth|gest|weeks gestation|gestation at birth|born at weeks|born at',
    'child.conditions':
      'condition|conditions|diagnosis|diagnoses|dx|diag|pathology|disorder|primary diagnosis|presentation|medical condition|med hx|reason',
    'child.affected_side':
      'affected side|side affected|involved side|side of hemi|hemi side|involvement|aff side',
    'child.insensate_skin':
      'insensate|insensate skin|insensate feet|sensation|sensory loss|no sensation|reduced sensation|skin sensation|skin cannot warn',
    'child.latex_alert': 'latex|latex alert|latex allergy|latex allergic|latex risk|latex precautions',
    'child.palliative': 'palliative|palliative care',
    'child.walks': 'walks|walking|walker|ambulant|ambulatory|ambulation|amb',
    'child.sibling_group': 'sibling|siblings|sibling group|family group|twin|twin of|sibs|brother sister',
    'child.transport_days': 'transport days|transport|days available|transport day',
    'child.prefers_holidays': 'prefers holidays|school holidays|holidays only|holidays',
    'child.clinician':
      'clinician|orthotist|seen by|consultant|practitioner|therapist|cpo|orth|clinician name|named clinician',
    'child.contact':
      'contact|phone|tel|telephone|mobile|parent|carer|contact no|phone no|tel no|mobile no|parent phone|carer phone|mum|mother|contact number|phone number|guardian|cell|email|e mail|parent carer|parent contact|carer contact|mum s mobile|mum mobile',
    'child.language': 'language|lang|spoken language|first language|home language|interpreter',
    'child.status': 'status|child status|patient status|pt status|active|care status|caseload status',
    'visit.date':
      'eval|eval date|evaluation|evaluation date|date of evaluation|date of eval|exam date|examined|examination date|date of exam|visit|visit date|clinic|seen|reviewed|reviewed on|date reviewed|checked on|date seen|appointment|appt|appt date|review|review date|last seen|last review|last visit|measured|measured on|date measured|assessed|assessment|assessment date|clinic date|measurement date|attended|date attended|date of review|session|contact date|dos|date of service|date taken',
    'visit.age':
      'age at visit|age at review|age at measurement|age when seen|age seen|age then|age on day|age at date|age at clinic',
    'visit.method': 'method|instrument|measured with|tool|how measured|gauge',
    'visit.observer':
      'initials|init|inits|staff initials|staff|observer|measured by|taken by|by whom|assessor|examiner|by|observer initials|clinician initials|tester',
    'long.measure': 'measure|measurement|dimension|what|parameter|what measured|measurement type|site',
    'long.value': 'how much|amount|figure|value|reading|result|size|mm value|measurement value',
    'long.unit': 'unit|units|uom',
    side: 'side|laterality|leg side|l r|r l|left right|which side|which foot|which leg|limb|lat',
    'device.id':
      'device id|device no|device number|orthosis no|job no|job number|serial|serial no|device ref|works order|order no',
    'device.family':
      'family|device|device type|device family|orthosis|orthoses|orthotic|orthotics|brace|braces|splint|splints|prescription|rx|device prescribed|appliance|type of orthosis|type of device|kit|product|current orthosis|current device|issued|item|splintage|type|device name|orthosis type|brace type|treatment|device fitted|orthotic prescription|orthosis prescribed|orthotic treatment|orthotic device|treatment given|device supplied|orthosis supplied|orthotic type|afo type|devices',
    'device.cast_date':
      'cast|cast date|casted|date cast|date casted|cast on|impression|scanned|scan date|date scanned|scan|cast scan|cast scan date|mould date|measured for|casting date|casting|date of cast|plaster|cast taken|shape capture|capture date',
    'device.fitted_date':
      'brace on|splint on|helmet on|orthosis on|device on|fitted|fitted on|date fitted|fit date|fitting|fitting date|delivered|delivery|delivery date|supplied|date supplied|supply date|issue date|date issued|dispensed|issued on|date of fitting|date of supply|date of issue|worn since|received|date delivered|provided|since|in use since|wearing since|worn from|in wear since|start of wear|given on|supplied on|date given|handed over|date provided|delivery of device|fit on|issued|from|given',
    'device.end_date':
      'end date|ended|ended on|date ended|device end date|finished|finished on|finished with|date finished|stopped|stopped on|date stopped|retired|retired on|date retired|withdrawn|withdrawn on|date withdrawn|replaced on|date replaced|discontinued|discontinued on|date discontinued|worn until|until|out of use|out of use since|returned on|date returned|scrapped on|brace off|last worn|end of wear|end of use|in use until',
    'device.end_reason':
      'end reason|reason ended|reason for end|reason for ending|why ended|why stopped|why finished|why replaced|why|reason finished|reason stopped|reason for stopping|reason for replacement|replacement reason|reason replaced|reason for change|reason for discontinuation|retired reason|reason retired|reason withdrawn|reason|end cause',
    'device.status': 'state|status|device status|status of device|orthosis status|brace status|in use',
    'device.footplate': 'footplate|foot plate|footplate length|plate length',
    'device.verdict':
      'fit|fit ok|fit verdict|verdict|how fits|fit at review|fitting well|fit check|fit today|current fit|does it fit|fit comment',
    'shoe.size': 'shoe|shoe size|shoes|shoesize|size of shoe|boot size|footwear size|trainers size|shoe sz',
    'marker.menarche': 'menarche|date of menarche|periods started|first period|lmp first',
    'marker.pelvis_stage': 'risser|risser stage|risser sign|pelvis stage|iliac apophysis',
    'marker.hand_stage': 'sanders|sanders stage|hand stage|sms|skeletal maturity',
    'marker.bone_age': 'bone age|skeletal age|ba',
  },
  kept: 'hours|hours day|hours per day|hrs day|hours worn|hrs worn|wear time|hours of wear|wear hours|growth since cast|growth since fitting|holes left|holes|expected life|expected lifespan|lifespan|life span|cost|price|invoice|cobb|cobb angle|centile|centiles|percentile|percentiles|z score|zscore|sds|sd score|no|nr|row|line|review due|next review|next appt|next appointment|next visit|due|recall|recall date|follow up|follow up due|f u|plan|postcode|zip|address|gp|school|gmfcs|gmfcs level|list|priority|action|weight bearing|funding|discharged on|referral|referred by|referrer|referral date|consultant name|botox|surgery|allergies|bmi|height centile|insurance|payer|cost|invoice|colour|color|pattern|straps|no of visits|dna count|wait|waiting|target date|footwear|shoe type|cobb|cobb angle|curve|angle|rom|dorsiflexion|df|tone|mas|botulinum|toxin|ae|next fitting|reviewed by|ethnicity|nationality|town|city|funder|cvai|ci|asymmetry|cephalic index|tags|urgency|seq|sr no|s no|sn|arm span|armspan|span',
  remarks:
    'notes|note|comments|comment|remarks|remark|remarks notes|outcome|clinical notes|review notes|visit notes|free text|findings|problems|issues|concerns|history|progress notes',
  skin: 'skin|skin check|skin notes|skin state|skin condition|skin status|red marks|marks|redness|pressure areas|pressure marks',
  parts: {
    foot: 'foot|feet|ft|sole',
    heel: 'heel',
    ankle: 'ankle|malleolar|malleoli|malleolus|supramalleolar',
    calf: 'calf|calves',
    knee: 'knee|tibial plateau|knee joint|knee axis',
    fibula: 'fib head|fibula head|fibular head|fibula|fib hd|head of fibula',
    thigh: 'thigh',
    hip: 'hip|hips|hip joint',
    trochanter: 'trochanter|troch|greater trochanter',
    asis: 'asis',
    leg: 'leg|limb|legs|lower limb',
    trunk: 'trunk',
    pelvis: 'pelvis|pelvic',
    waist: 'waist',
    chest: 'chest|bust|thorax|xiphoid',
    axilla: 'axilla|axillary|underarm|armpit',
    head: 'head|skull|cranial|cranium',
  },
  dimensions: {
    length: 'length|len|lgth|lth|lg|long|l gth|lgt',
    breadth: 'breadth|width|wide|w|wd|wdth|br|diameter|ml|m l',
    height: 'height|ht|hgt|hght|high',
    girth: 'girth|circumference|circ|circum|circumf|circ f|around|gth|c f|perimeter|crcm',
    diagonal: 'diagonal|diag|oblique',
  },
  measures: {
    foot_length: 'foot length|fl|heel to toe|heel toe|foot ln',
    foot_breadth:
      'foot breadth|foot width|fw|met heads|met head width|mtp width|mth width|forefoot width|forefoot breadth|ball width|met width|across mets',
    heel_breadth: 'heel width|heel breadth',
    malleolar_breadth:
      'malleolar width|malleolar breadth|ankle width|ankle ml|bimalleolar width|ankle breadth',
    ankle_height: 'sphyrion height|ankle height',
    ankle_girth: 'ankle girth',
    calf_girth: 'calf girth|cg|max calf|widest calf|calf max',
    knee_height:
      'knee joint height|tibiale height|knee centre height|knee center height|k f|kf|knee floor|floor to knee|knee to floor|floor knee|kh|k h|knee ht|mtp to floor|ktf|floor to mtp|knee centre to floor',
    fibular_head_height: 'fibular head height|fib head height|floor to fib head|fibula head height',
    hip_height: 'trochanterion height|hip joint height|trochanter height|floor to trochanter',
    asis_height: 'asis height|iliospinale height',
    leg_length:
      'subischial leg length|leg length subischial|sub ischial leg length|inside leg|inseam|inside leg length',
    asis_malleolus_length:
      'leg length|asis to malleolus|asis malleolus|asis to medial malleolus|asis mm|true leg length|real leg length|ll|asis med mal|asis to med mal',
    sitting_height:
      'sitting height|sit height|sit ht|sitting ht|sh|seated height|trunk height|crown rump|sitting|seated ht',
    stature:
      'height|ht|hgt|stature|standing height|body height|standing ht|child height|body length|recumbent length|supine length|total height|lying length|length lying|height standing',
    thigh_girth: 'thigh girth|prox thigh|proximal thigh|mid thigh',
    hip_girth: 'hip girth|hips',
    waist_girth: 'waist|waist girth',
    chest_girth: 'chest girth|chest',
    axillary_girth: 'axillary girth|axilla girth',
    pelvic_breadth: 'pelvic breadth|pelvic width|inter asis|asis width|pelvis width|bispinous|asis to asis',
    head_circumference:
      'head circumference|hc|ofc|head circ|head size|head girth|fronto occipital circumference|occipitofrontal circumference',
    head_breadth: 'head breadth|head width|biparietal|cranial width|ml head',
    head_length: 'head length|cranial length|ap head',
    head_diagonal: 'head diagonal|cranial diagonal|diagonal|oblique diagonal',
    weight: 'weight|wt|body weight|mass|wgt|body mass',
  },
  left: 'left|lt|lft|l|lhs|lh|left side|sin',
  right: 'right|rt|rgt|r|rhs|rh|right side',
  both: 'both|bilateral|bilat|bil|bl|b l|pair|prs|pr|x2|l and r|l r|r l|left right|right left|both sides|both feet|both legs|r and l|left and right|right and left|bi|bilaterally|double|2|two|lr|rl|l+r|b',
  person: 'baby|infant|child|patient|pt|client|kid|pat|user|service user|px|pupil|student|scholar',
  name: 'name|names',
  number: 'no|number|num|id|identifier|code|ref',
  date: 'date|on|day|dt|when',
  age: 'age|years|yrs|age yrs|age years',
  ageMonths: 'months|month|mths|mth|mo|mos|mon',
  ageWeeks: 'weeks|week|wks|wk',
  today: 'current|now|today|age now|current age|age today|age yrs now',
  otherTime:
    'previous|previously|prev|prior|before|old|initial|initially|baseline|start|last time|expected|predicted|forecast|target|goal|planned|intended|adult|final|difference|diff|change|gain|growth',
  noise:
    'of|the|in|at|a|an|to|for|and|with|current|latest|recent|most recent|last|measured|measurement|measurements|meas|reading|standing|wb|weight bearing|nwb|non weight bearing|max|maximum|taken|size|new|is|y n|yes no|y n?|all|from|tape|gauge|dd mm yy|dd mm yyyy|mm dd yyyy|dmy|mdy|yyyy mm dd|y m|y mm|years months|yrs mths|body|per|point|widest|level|approx|mid|actual|today|visit|please|only|orthotic|barefoot|bare|shod off|calliper|caliper|each|side|overall|eu|uk|us|euro|european|ideally|hosp',
  female: 'f|female|girl|g|fem|woman|she|f girl|girls',
  male: 'm|male|boy|b|man|he|m boy|boys',
  yes: 'yes|y|true|1|x|yeah|ok|positive|pos|+|yes!|known|allergy|allergic|alert|✓|✔|present|risk|high risk|avoid',
  no: 'no|n|false|0|nil|negative|neg|none known|nkda|none|normal|intact|full|no known allergy|no known allergies|nka|not known',
  nothing:
    'n a|na|nil|none|null|dna|dnw|not done|nd|not measured|unable|refused|did not attend|unk|unknown|not known|tbc|tba|missing|cancelled|canceled|wnb|was not brought|cna|not taken|not possible|nm|n d|n m|not seen|no|dns|skip|skipped|uta|utm|asleep|crying|uncooperative|not assessed|nk|n k|n r|x|absent|no show|ns|dnk|not tested|not recorded|in plaster|see notes|?',
  ditto: 'ditto|dito|as above|same as above|see above',
  unchanged:
    'as before|same|same device|same brace|same afo|same afos|unchanged|no change|continue|continues|current',
  doubt:
    'approx|about|around|ca|circa|shod|in shoes|with shoes|shoes on|in shoe|estimate|estimated|est|unsure|roughly|wriggly|moving|not sure|guess|poor|difficult|?|with shoe|in socks|c|in brace|curled|contracted|crying|unreliable|repeat|recheck|check|nwb|lying|sitting|parent|by mum|per mum',
  months:
    'january jan|february feb|march mar|april apr|may|june jun|july jul|august aug|september sep sept|october oct|november nov|december dec',
  totals:
    'total|totals|sum|mean|average|avg|count|median|min|max|n|subtotal|grand total|sd|number of|total children|total patients',
  verdicts: {
    loose: 'loose|big|too big|large|roomy|slack',
    good: 'good|ok|okay|fine|fits|fits well|well|satisfactory|comfortable|happy|great|yes|y|good fit|snug|no issues|ok fit|all good|fitting well',
    tight:
      'tight|bit tight|getting tight|snug tight|nearly outgrown|getting small|borderline|slightly tight|a bit tight|getting short|getting too small',
    outgrown:
      'outgrown|too small|small|too short|short|outgrew|needs new|no|doesn t fit|no longer fits|grown out|does not fit|too tight|toes over|toes over end',
  },
  endReasons: {
    outgrown:
      'outgrown|outgrew|grown out|grown out of|too small|too short|small|short|growth|grew|no longer fits|does not fit|toes over|too tight|tight',
    'worn-out': 'worn out|wornout|wear|wear and tear|old|end of life|worn through|beyond repair',
    broken: 'broken|broke|cracked|crack|snapped|damaged|fracture|fractured|split|failed',
    lost: 'lost|missing|stolen|mislaid|left on bus',
    'function-changed':
      'function changed|change of function|change in function|new prescription|prescription change|prescription changed|changed prescription|walking changed|change of goal|goals changed|upgraded|change of device|different device|needs changed',
    surgery: 'surgery|operation|op|post op|surgical|had surgery|sdr|tendon lengthening',
    'tone-or-contracture':
      'tone|contracture|contractures|tone change|tone changed|increased tone|spasticity|tone or contracture|loss of range',
    skin: 'skin|skin problem|skin problems|sore|sores|pressure sore|pressure area|blister|blisters|rubbing|skin breakdown|marks|ulcer',
    transferred:
      'transferred|moved|moved away|transfer|moved area|to adult services|adult services|transition',
    'no-longer-wanted':
      'no longer wanted|not wanted|no longer needed|not needed|no longer required|not required|treatment finished|treatment complete|treatment completed|finished treatment|refused|declined|not worn|not tolerated|not wearing|non compliance|not used|corrected|family choice|discharged|end of treatment',
  },
  deviceStates: {
    ordered:
      'ordered|in production|in manufacture|awaiting|being made|on order|cast|in progress|waiting|requested|awaiting fit|awaiting fitting|awaiting delivery|at workshop|to be fitted|in workshop|wip',
    worn: 'worn|in use|current|fitted|active|delivered|wearing|issued|supplied|in wear|yes|ok|using|given|current device',
    retired:
      'retired|old|outgrown|finished|stopped|not worn|discontinued|replaced|no longer worn|returned|scrapped|lost|not in use|ended|no longer used|superseded|previous|expired|broken',
  },
  childStates: {
    active: 'active|current|open|live|ongoing|yes|y|on caseload|on list|under review',
    'moved-away':
      'moved|moved away|transferred|moved out of area|left area|moved clinic|transfer|out of area|to adult services|moved on',
    discharged: 'discharged|closed|inactive|d c|dc|finished|discharge|no|n|ended|off caseload|archived',
    died: 'died|deceased|rip|dead|passed away|death',
  },
};
