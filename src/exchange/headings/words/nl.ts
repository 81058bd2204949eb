import type { Vocabulary } from '../vocabulary.js';

export const nl: Vocabulary = {
  fields: {
    'child.id':
      'bsn|zis|epd nr|registratienr|pat nr|patnr|patientnr|patiëntnr|patientnummer|patiëntnummer|patiënt nr|dossier|dossiernr|dossiernummer|dossier nr|clientnr|cliëntnr|cliëntnummer|clientnummer|zkh nr|ziekenhuisnummer|nr patient|registratienummer|zis nr|patient id|klantnr|klantnummer|zisnummer',
    'child.name':
      'naam kind|volledige naam|voor en achternaam|naam patiënt|naam voornaam|achternaam voornaam|voornaam achternaam|naam cliënt|naam en voornaam|initialen',
    'child.first_name': 'voornaam|roepnaam|voornamen',
    'child.last_name': 'achternaam|familienaam|geslachtsnaam',
    'child.birth_date':
      'geboorte|geboortedatum|geb datum|geb|gebdatum|geboren|geboren op|gebdat|geb dat|gdatum|geb dtm|geboortedag|g datum|geboortejaar|geb jaar',
    'child.sex': 'geslacht|m v|v m|j m|m j|jongen meisje|sekse|geslacht m v|gesl|man vrouw',
    'child.gestation_weeks':
      'zwangerschapsduur|amenorroe|weken|zwangerschapsweken|am duur|termijn weken|geboren bij weken|ad',
    'child.conditions':
      'diagnose|diagnosen|aandoening|diagnoses|ziektebeeld|diag|indicatie|aandoeningen|pathologie',
    'child.affected_side': 'aangedane zijde|aangedane kant|aangedaan|kant aangedaan|aangedane zij',
    'child.insensate_skin':
      'sensibiliteit|gevoelloos|gevoel|gevoelloze huid|sensibiliteitsstoornis|sensibel|gevoelsstoornis',
    'child.latex_alert': 'latex|latexallergie|latex allergie',
    'child.palliative': 'palliatief',
    'child.walks': 'loopt|lopend|ambulant|loopvaardig|lopen',
    'child.sibling_group': 'broer zus|broertje zusje|tweeling|siblings|gezin',
    'child.transport_days': 'vervoer|vervoersdagen|vervoer dagen|taxi dagen',
    'child.prefers_holidays': 'vakantie|schoolvakantie|vakanties',
    'child.clinician':
      'instrumentmaker|orthopedisch instrumentmaker|behandelaar|arts|orthopedisch technoloog|therapeut|gezien door|adviseur|oim|revalidatiearts|oa|ra',
    'child.contact':
      'contact|telefoon|tel|mobiel|ouders|moeder|telefoonnummer|tel nr|telnr|ouder|contactpersoon|tel ouders|gsm|mail|mobiele nummer|verzorger',
    'child.language': 'taal|thuistaal|moedertaal',
    'child.status': 'status|status kind|status patiënt|actief',
    'visit.date':
      'bezoek|afspraak|controle|meting|meetdatum|gemeten|gemeten op|gezien|consult|spreekuur|datum meting|controledatum|datum bezoek|laatste bezoek|laatste controle|laatst gezien|datum controle|datum consult|onderzoek|meetmoment|datum gemeten|datum afspraak|gezien op|maatname datum|consultdatum|bezoekdatum|afspraakdatum',
    'visit.age':
      'leeftijd bij meting|leeftijd bij controle|leeftijd bij bezoek|leeftijd op meetdatum|leeftijd meting|lft bij meting|leeftijd bij consult',
    'visit.method': 'methode|instrument|meetmethode|meetinstrument',
    'visit.observer': 'gemeten door|meter door|paraaf|onderzoeker',
    'long.measure': 'maat|maatsoort|meting soort|wat|grootheid|soort maat|soort meting|omschrijving maat',
    'long.value': 'waarde|uitkomst|resultaat|meetwaarde|gemeten waarde',
    'long.unit': 'eenheid|eenh',
    side: 'zijde|kant|l r|r l|links rechts|li re|re li|lateraliteit|been|zij',
    'device.id': 'ordernr|ordernummer|order|werkbon|hulpmiddel nr|werkbonnummer',
    'device.family':
      'orthese|orthesen|orthesetype|hulpmiddel|hulpmiddelen|voorziening|spalk|spalken|beugel|soort orthese|type orthese|soort hulpmiddel|type hulpmiddel|product|korset|verstrekking|verstrekt|voorzieningen|soort voorziening|behandeling|orthese type|orthesevoorziening|soort|type voorziening',
    'device.cast_date':
      'gips|gipsdatum|gipsafdruk|afdruk|gegipst|scan|scandatum|gipsmoment|maatname|datum gips|datum scan|gegipst op|aanmeten|aanmeetdatum|afdruk datum|gips scan|aangemeten|datum aanmeten|gescand|aangemeten op|scan datum|datum maatname',
    'device.fitted_date':
      'afgeleverd|aflevering|afgegeven|afleverdatum|geleverd|levering|leverdatum|gepast|passen|pasdatum|aflever datum|datum aflevering|afgeleverd op|in gebruik sinds|gedragen sinds|datum levering|afgifte|afgiftedatum|verstrekt op|sinds|draagt sinds|gebruik sinds|geleverd op|afgegeven op|uitgeleverd|uitlevering|vanaf',
    'device.end_date':
      'einde|einddatum|eind datum|datum einde|beeindigd|beeindigd op|gestopt|gestopt op|gedragen tot|tot|vervangen op|uit gebruik|uit gebruik sinds|afgeschreven|afgeschreven op|ingeleverd op|einde gebruik|in gebruik tot',
    'device.end_reason':
      'reden einde|einde reden|reden beeindiging|reden van beeindiging|reden gestopt|reden stop|reden vervanging|reden van vervanging|reden|waarom gestopt|waarom|reden einde gebruik',
    'device.status': 'status|status orthese|status hulpmiddel|in gebruik|status voorziening',
    'device.footplate': 'voetplaat|zool',
    'device.verdict':
      'pasvorm|past|passing|hoe past|zit|zit goed|beoordeling pasvorm|pasvorm orthese|past nog',
    'shoe.size': 'schoenmaat|schoen|schoenen|maat schoen|schoenmaat eu|schoenmt',
    'marker.menarche': 'menarche|eerste menstruatie|eerste ongesteldheid',
    'marker.pelvis_stage': 'risser|risser stadium',
    'marker.hand_stage': 'sanders|sanders stadium',
    'marker.bone_age': 'botleeftijd|skeletleeftijd|bl',
  },
  kept: 'uren|uren per dag|draagtijd|uren dag|percentiel|volgnr|volgnummer|rij|nr|volgende controle|volgende afspraak|vervolgafspraak|vervolg|adres|woonplaats|postcode|school|gmfcs|gmfcs niveau|verzekeraar|verzekering|huisarts|verwijzer|zorgverzekeraar|nieuwe afspraak|actie|bmi|operatie|botox|machtiging|plaats|beleid|terug over|cobb|hoek|cobb hoek|stad|spanwijdte|armspanwijdte',
  remarks: 'opmerking|opmerkingen|notitie|notities|toelichting|bijzonderheden|bevindingen',
  skin: 'huid|huidcontrole|roodheid|drukplekken',
  parts: {
    foot: 'voet|voeten|voets|voetzool',
    heel: 'hiel|hak',
    ankle: 'enkel|malleolen|enkels|malleoli|malleolus',
    calf: 'kuit|kuiten|onderbeen',
    knee: 'knie|kniegewricht|kniespleet|knieen',
    fibula: 'fibulakop|fibulakopje|kuitbeenkop|fibula|kuitbeenkopje',
    thigh: 'bovenbeen|dij|dijbeen',
    hip: 'heup|heupgewricht|heupen',
    trochanter: 'trochanter',
    asis: 'sias',
    leg: 'been|benen',
    trunk: 'romp',
    pelvis: 'bekken',
    waist: 'taille|middel|buik',
    chest: 'borst|thorax|borstkas',
    axilla: 'oksel|axilla|axillair',
    head: 'hoofd|schedel',
  },
  dimensions: {
    length: 'lengte|lgt|lng|lengten',
    breadth: 'breedte|br|wijdte',
    height: 'hoogte|hgt|hgte',
    girth: 'omtrek|omvang|omtr|omv',
    diagonal: 'diagonaal',
  },
  measures: {
    foot_length: 'voetlengte|voet lengte|vl|voetlgt|zoollengte',
    foot_breadth: 'voetbreedte|balbreedte|voorvoetbreedte|vb|bal breedte|balmaat',
    heel_breadth: 'hielbreedte|hakbreedte',
    malleolar_breadth: 'enkelbreedte|malleolenbreedte',
    ankle_height: 'enkelhoogte|malleolushoogte|enkel hoogte',
    ankle_girth: 'enkelomtrek|enkelomvang|enkel omtrek|omtrek enkel',
    calf_girth: 'kuitomtrek|kuitomvang|kuit|omtrek kuit|kuit omtrek|onderbeenomtrek|kuitomtr|ko|kuitomv',
    knee_height: 'kniehoogte|knie hoogte|kniespleethoogte|kniespleet|knieholtehoogte vloer',
    fibular_head_height: 'fibulakophoogte|fibulakop hoogte|hoogte fibulakop|hoogte fibulakopje|fibulakopje',
    hip_height: 'heuphoogte|trochanterhoogte|heup hoogte',
    asis_height: 'sias hoogte|siashoogte',
    leg_length: 'subischiale beenlengte|binnenbeenlengte|kruishoogte|binnenbeen',
    asis_malleolus_length: 'beenlengte|been lengte|sias malleolus|sias enkel|bl',
    sitting_height: 'zithoogte|zitlengte|zittende lengte|romplengte|zit hoogte',
    stature: 'lengte|lichaamslengte|lengte staand|lang|gestalte|lengte kind|lich lengte|staande lengte',
    thigh_girth: 'bovenbeenomtrek|dijomtrek|dijomvang|bovenbeen|omtrek bovenbeen|bovenbeenomvang|dij',
    hip_girth: 'heupomtrek|heupomvang|heup omtrek|omtrek heup',
    waist_girth: 'taille|tailleomtrek|buikomtrek|middelomtrek|taille omtrek',
    chest_girth: 'borstomtrek|thoraxomtrek|borstomvang',
    axillary_girth: 'okselomtrek|omtrek oksel|omtrek oksels',
    pelvic_breadth: 'bekkenbreedte|sias sias|bekken breedte',
    head_circumference: 'hoofdomtrek|schedelomtrek|ho|hoofdomvang|so|omtrek hoofd|hoofd omtrek',
    head_breadth: 'hoofdbreedte|schedelbreedte',
    head_length: 'hoofdlengte|schedellengte',
    head_diagonal: 'hoofddiagonaal|diagonaal|schedeldiagonaal',
    weight: 'gewicht|lichaamsgewicht|gew|kg',
  },
  left: 'links|li|l|linker|lnks|lks',
  right: 'rechts|re|r|rechter|rchts|rts|rechtse',
  both: 'beide|beiderzijds|bilateraal|bdz|tweezijdig|beide zijden|li re|re li|links en rechts|rechts en links|l r|r l|dubbelzijdig|paar|l en r|r en l|bilat|beide kanten|dubbel|bz|2x|2|links rechts|rechts links|beide benen|li en re|re en li|bds',
  person: 'baby|zuigeling|kind|patiënt|patient|pat|cliënt|client|pt|leerling',
  name: 'naam',
  number: 'nr|nummer|id|no',
  date: 'datum|op|dag|dd|d d|dat',
  age: 'leeftijd|lft|leeft',
  ageMonths: 'maanden|maand|mnd',
  ageWeeks: 'weken|week|wk',
  today: 'nu|huidig|vandaag|leeftijd nu|huidige leeftijd|huidige',
  otherTime:
    'vorige|vorig|oud|oude|begin|eerder|eerdere|start|doel|verwacht|verwachte|streef|verschil|groei|beginwaarde',
  noise:
    'nieuw|nieuwe|tijdens|voor|van|het|de|een|in|bij|op|en|met|laatste|huidige|waarde|max|ja nee|j n|jaar|dd mm jjjj|dd mm jj|blootsvoets|staand|belast|onbelast|meting|maat|gemeten|vloer|vanaf|grootste|tot|boven|jaar maanden|zijde|niveau|der|jr mnd',
  female: 'v|vrouw|meisje|vrouwelijk|f|mei|m meisje|vr|vrl|mv',
  male: 'm|man|jongen|mannelijk|j|jon|jng',
  yes: 'ja|j|waar|x|positief|bekend|allergie|+|aanwezig',
  no: 'nee|n|onwaar|neen|negatief|geen|normaal|intact|niet bekend|onbekend|goed|geen bekend',
  nothing:
    'nvt|n v t|niet gemeten|ng|n g|niet verschenen|onbekend|niet gelukt|afgezegd|geen|niet mogelijk|nb|n b|n t b|ntb|niet bekend|geweigerd|ontbreekt|niet gekomen|niet gedaan|nnb|n n b|niet te meten|no show|ziek|niet bepaald',
  ditto: 'idem|dito|zie boven|als boven|hetzelfde',
  unchanged: 'zoals eerder|onveranderd|idem als vorige|dezelfde|zelfde|ongewijzigd',
  doubt:
    'ca|ongeveer|circa|met schoen|met schoenen|in schoen|geschat|onzeker|beweeglijk|onrustig|plm|schatting|in schoenen|aan|met sokken|nameten|twijfel|volgens moeder|liggend|huilt',
  months:
    'januari jan|februari feb|maart mrt maa|april apr|mei|juni jun|juli jul|augustus aug|september sep sept|oktober okt|november nov|december dec',
  totals: 'totaal|som|gemiddelde|aantal|gemiddeld|subtotaal|mediaan',
  verdicts: {
    loose: 'ruim|los|te groot|groot|te ruim|te wijd',
    good: 'goed|past|ok|prima|past goed|in orde|akkoord|ja|zit goed|oke|mooi|g|uitstekend',
    tight: 'krap|strak|wordt krap|beetje krap|bijna te klein|net aan|wordt klein|wat krap|iets krap|nauw',
    outgrown:
      'te klein|te kort|uitgegroeid|past niet|past niet meer|te krap|nee|eruit gegroeid|klein|te strak',
  },
  endReasons: {
    outgrown:
      'te klein|te kort|klein|kort|eruit gegroeid|uitgegroeid|gegroeid|groei|past niet meer|te krap|te strak',
    'worn-out': 'versleten|slijtage|op|oud',
    broken: 'kapot|gebroken|breuk|stuk|defect|gescheurd|scheur',
    lost: 'kwijt|verloren|zoek|gestolen|vermist',
    'function-changed':
      'functie veranderd|functieverandering|nieuw voorschrift|ander hulpmiddel|gewijzigd voorschrift|doel gewijzigd',
    surgery: 'operatie|geopereerd|ok|na operatie',
    'tone-or-contracture': 'tonus|spasticiteit|contractuur|contracturen|spasme',
    skin: 'huid|drukplek|drukplekken|wond|blaar|blaren|decubitus',
    transferred: 'verhuisd|verhuizing|overgeplaatst|overgedragen|volwassenenzorg',
    'no-longer-wanted':
      'niet meer nodig|niet nodig|einde behandeling|behandeling klaar|behandeling afgerond|niet gedragen|draagt niet|geweigerd|niet getolereerd|niet meer gewenst|afgerond',
  },
  deviceStates: {
    ordered:
      'besteld|in productie|in bestelling|aangevraagd|wacht|in de maak|in bewerking|in aanvraag|te passen|in werkplaats',
    worn: 'gedragen|in gebruik|actief|afgeleverd|huidig|draagt|geleverd|huidige',
    retired:
      'oud|te klein|vervangen|niet gedragen|afgedaan|gestopt|niet meer in gebruik|kapot|verloren|afgeschreven|vervallen|buiten gebruik|niet meer gedragen',
  },
  childStates: {
    active: 'actief|lopend|in zorg|in behandeling|onder controle',
    'moved-away': 'verhuisd|overgedragen|elders|andere kliniek',
    discharged: 'ontslagen|uit zorg|afgesloten|inactief|uitgeschreven|gestopt|niet actief',
    died: 'overleden|gestorven',
  },
};
