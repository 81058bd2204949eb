import type { Vocabulary } from '../vocabulary.js';

export const de: Vocabulary = {
  fields: {
    'child.id':
      'kvnr|pid|piz|nr|pat nr|patnr|patienten nr|patientennummer|patientennr|fallnummer|fall nr|fallnr|aktenzeichen|kunden nr|kundennummer|kdnr|kd nr|kennung|akte|aktennr|akten nr|patienten id|kundennr|id nr|idnr|versichertennummer|kartei nr|karteinr|karteinummer',
    'child.name':
      'name vorname|nachname vorname|vor und nachname|vorname nachname|patientenname|name des kindes|kind name|vor und zuname|familienname vorname|kürzel|initialen',
    'child.first_name': 'vorname|rufname|vornamen',
    'child.last_name': 'nachname|familienname|zuname',
    'child.birth_date':
      'geburt|geb|geburtsdatum|geb datum|geburtstag|geb am|gebdat|geboren|geb dat|geboren am|gebdatum|gd|geb tag|gebtag|geburtsjahr|jahrgang|geb jahr|jg',
    'child.sex': 'geschlecht|geschl|m w|w m|j m|m j|sex|m w d|ges|gesch|bub mädchen|junge mädchen',
    'child.gestation_weeks':
      'ssw|schwangerschaftswoche|schwangerschaftswochen|gestationswoche|gestationsalter|geburt ssw|frühgeburt ssw',
    'child.conditions':
      'diagnose|diagnosen|krankheitsbild|grunderkrankung|befund|dg|indikation|erkrankung|diag|krankheit|hauptdiagnose',
    'child.affected_side': 'betroffene seite|betr seite|seite betroffen|befallene seite',
    'child.insensate_skin':
      'sensibilität|gefühl|gefühllos|hautgefühl|sensibilitätsverlust|taub|sensibel|sensibilitätsstörung',
    'child.latex_alert': 'latex|latexallergie|latex allergie',
    'child.palliative': 'palliativ',
    'child.walks': 'gehfähig|geht|läuft|läufer|gehend|gehfähigkeit|mobil|laufen',
    'child.sibling_group': 'geschwister|geschwisterkind|zwilling|geschwisterkinder',
    'child.transport_days': 'transporttage|fahrdienst|fahrtage',
    'child.prefers_holidays': 'ferien|nur in den ferien|schulferien',
    'child.clinician':
      'techniker|orthopädietechniker|behandler|arzt|therapeut|betreuer|ot|zuständig|orthopädietechnik|bearbeiter|sachbearbeiter|versorger',
    'child.contact':
      'kontakt|telefon|tel|handy|mobil nr|eltern|mutter|tel nr|telefonnummer|telefonnr|rufnummer|erziehungsberechtigte|ansprechpartner|handynr|handynummer|mobilnummer',
    'child.language': 'sprache|muttersprache',
    'child.status': 'status|status kind|patientenstatus|aktiv',
    'visit.date':
      'besuch|termin|kontrolle|messung|messdatum|gemessen|untersuchung|untersuchungsdatum|kontrolldatum|letzte kontrolle|letzter termin|vorstellung|sprechstunde|gemessen am|datum messung|messtag|letzter besuch|visite|messtermin|zuletzt gesehen|datum der messung|vermessen am|maß vom|masse vom|maße vom|maßdatum',
    'visit.age':
      'alter bei messung|alter bei kontrolle|alter bei untersuchung|alter beim termin|alter bei termin',
    'visit.method': 'methode|messmethode|gerät|messgerät|messmittel',
    'visit.observer': 'gemessen von|messende person|untersucher|kurzzeichen|messer',
    'long.measure': 'maß|messgröße|messwert art|was|maßart|körpermaß|messpunkt|parameter|maßbezeichnung',
    'long.value': 'wert|messwert|ergebnis|größe wert',
    'long.unit': 'einheit|einh',
    side: 'seite|li re|re li|links rechts|seitenangabe|seitigkeit|bein seite',
    'device.id': 'auftrag|auftragsnr|auftrags nr|auftragsnummer|orthesen nr|geräte nr',
    'device.family':
      'orthese|orthesen|hilfsmittel|versorgung|versorgungen|schiene|schienen|orthesentyp|hilfsmittelart|versorgungsart|art der versorgung|produkt|orthesenart|aktuelle versorgung|art|korsett|gerät versorgung|versorgt mit|behandlung|hilfsmittelversorgung|orthetische versorgung|orthesenversorgung|verordnung|verordnet|orthesen typ|orthese typ',
    'device.cast_date':
      'gips|gipsdatum|gipsabdruck|abdruck|gipsabnahme|scan|scandatum|abformung|gegipst|maßnahme|maßabnahme|abdruckdatum|gips am|gipsen|formabnahme|gips scan|scan gips|abdruck am|gipsnegativ',
    'device.fitted_date':
      'abgabe|abgabedatum|ausgeliefert|auslieferung|angepasst|anprobe fertig|geliefert|lieferung|lieferdatum|fertigstellung|abgegeben|abgegeben am|versorgt am|anpassung|ausgabe|ausgabedatum|übergabe|getragen seit|seit|in gebrauch seit|trägt seit|versorgt seit|ausgegeben|ausgegeben am|geliefert am|übergeben|übergeben am|anprobe|ab',
    'device.end_date':
      'ende|enddatum|beendet|beendet am|ende der nutzung|abgesetzt|abgesetzt am|getragen bis|bis|ersetzt am|ausgemustert|ausgemustert am|außer gebrauch|nicht mehr getragen seit|versorgungsende|tragezeit bis|in gebrauch bis',
    'device.end_reason':
      'grund|endgrund|grund ende|grund des endes|ende grund|grund der beendigung|beendigungsgrund|grund für ersatz|ersatzgrund|grund ersatz|grund wechsel|warum beendet|warum|abgesetzt wegen|grund neuversorgung',
    'device.status': 'status|status orthese|orthesenstatus|status versorgung|in gebrauch',
    'device.footplate': 'fußplatte|fussplatte|sohle',
    'device.verdict': 'passform|sitz|passt|passung|sitzt|passgenauigkeit|sitz der orthese|paßform',
    'shoe.size': 'schuhgröße|schuhgrösse|schuhgr|schuh|schuhe|schuhgr eu|schuhnummer',
    'marker.menarche': 'menarche|erste regel|erste periode|regelblutung',
    'marker.pelvis_stage': 'risser|risser stadium|risserzeichen',
    'marker.hand_stage': 'sanders|sanders stadium|handstadium',
    'marker.bone_age': 'knochenalter|skelettalter',
  },
  kept: 'stunden|stunden tag|std tag|tragezeit|tragedauer|stunden pro tag|perzentile|perzentil|perz|lfd nr|lfd|laufende nummer|zeile|nächste kontrolle|nächster termin|wiedervorstellung|wv|kasse|krankenkasse|krankenversicherung|adresse|plz|ort|wohnort|schule|gmfcs|gmfcs level|straße|versicherung|kostenträger|verordnung vom|rezept|hausarzt|überweiser|kinderarzt|nächste|wiedervorlage|bmi|therapie|op|maßnahmen|rezeptdatum|genehmigung|kv|cobb|cobb winkel|krümmung|winkel|dorsalextension|tonus|botox|stadt|pos|kürzel therapeut|sonst|armspanne|spannweite',
  remarks:
    'bemerkung|bemerkungen|notiz|notizen|anmerkung|anmerkungen|kommentar|kommentare|befund|auffälligkeiten|sonstiges|besonderheiten',
  skin: 'haut|hautzustand|hautbefund|rötung|rötungen|druckstellen',
  parts: {
    foot: 'fuß|fuss|füße|fußes|fuss|sohlen',
    heel: 'ferse|fersen',
    ankle: 'knöchel|sprunggelenk|sprunggelenks|fessel|fesseln|osg|malleolen|knöchels',
    calf: 'wade|waden|unterschenkel|us',
    knee: 'knie|kniespalt|kniegelenk|kniegelenks|knies|kniegelenkspalt|kgs',
    fibula: 'fibulaköpfchen|wadenbeinköpfchen|fibulakopf|fibula',
    thigh: 'oberschenkel|schenkel|os',
    hip: 'hüfte|hüft|hüftgelenk|hüften|gesäß',
    trochanter: 'trochanter|rollhügel',
    asis: 'sias|spina',
    leg: 'bein|beine',
    trunk: 'rumpf|oberkörper',
    pelvis: 'becken',
    waist: 'taille|taillen|bauch',
    chest: 'brust|brustkorb|thorax',
    axilla: 'achsel|axilla|axillar|achsel',
    head: 'kopf|schädel',
  },
  dimensions: {
    length: 'länge|lg|lng|längen|lä',
    breadth: 'breite|br|weite|breiten',
    height: 'höhe|hö|höhen|hoch',
    girth: 'umfang|umf|umfänge|u',
    diagonal: 'diagonale|diagonal|schräge',
  },
  measures: {
    foot_length: 'fußlänge|fl|fusslänge|sohlenlänge|fuß lg|fußlg|fußl',
    foot_breadth: 'fußbreite|ballenbreite|vorfußbreite|fb|ballen|ballenweite',
    heel_breadth: 'fersenbreite',
    malleolar_breadth: 'knöchelbreite|malleolenbreite|malleolarbreite',
    ankle_height: 'knöchelhöhe|malleolenhöhe|innenknöchelhöhe|knöchel höhe',
    ankle_girth: 'knöchelumfang|fesselumfang|fesselumf|fesselweite|umfang fessel|umfang knöchel|fu',
    calf_girth: 'wadenumfang|wade|wadenumf|waden|wu|unterschenkelumfang|umfang wade|us umfang|wadenweite',
    knee_height:
      'kniehöhe|kniespalthöhe|kniegelenkshöhe|kniegelenkhöhe|bodenknie|knie boden|kniespalt|kniespalt boden',
    fibular_head_height: 'fibulaköpfchenhöhe|fibulaköpfchen höhe',
    hip_height: 'hüfthöhe|trochanterhöhe|hüftgelenkshöhe|hüftgelenkhöhe',
    asis_height: 'spinahöhe|siashöhe|sias höhe',
    leg_length: 'subischiale beinlänge|schritthöhe|schrittlänge|innenbeinlänge',
    asis_malleolus_length: 'beinlänge|bein länge|bl|sias malleolus|sias knöchel|spina malleolus',
    sitting_height: 'sitzhöhe|stammlänge|sitzgröße|rumpflänge|sitz höhe',
    stature:
      'größe|grösse|körpergröße|körperlänge|körperhöhe|kgr|kl|gr|körpergr|standhöhe|stehgröße|länge|kg cm|groesse',
    thigh_girth: 'oberschenkelumfang|oberschenkel|osu|os umfang|schenkelumfang|umfang oberschenkel',
    hip_girth: 'hüftumfang|gesäßumfang|hu',
    waist_girth: 'taillenumfang|bauchumfang|taille',
    chest_girth: 'brustumfang|thoraxumfang',
    axillary_girth: 'achselumfang|umfang achsel|axillarumfang',
    pelvic_breadth: 'beckenbreite|beckenweite|spinabreite|spinaabstand',
    head_circumference: 'kopfumfang|ku|schädelumfang|kopf umfang|kopfumf',
    head_breadth: 'kopfbreite|schädelbreite',
    head_length: 'kopflänge|schädellänge',
    head_diagonal: 'kopfdiagonale|diagonale|schädeldiagonale|kopf diagonale',
    weight: 'gewicht|gew|körpergewicht|kg|körpergew|kgew',
  },
  left: 'links|li|l|linker|linkes|linke|lks|linken|lk',
  right: 'rechts|re|r|rechter|rechtes|rechte|rts|rechten|rechtes|rs',
  both: 'beide|beids|beidseitig|beidseits|bds|bd|bilateral|beidseit|li re|re li|li und re|re und li|links und rechts|rechts und links|paar|beider|beiderseits|rechts links|links rechts|l r|r l|bd s|bs|bst|paarig|2 stk|1 paar|2',
  person: 'baby|säugling|kind|patient|pat|patientin|kunde|schüler|schülerin|kindergartenkind',
  name: 'name|namen',
  number: 'nr|nummer|id|kennung',
  date: 'datum|am|vom|dat|tag',
  age: 'alter|lebensalter',
  ageMonths: 'monate|monaten|monat|mon',
  ageWeeks: 'wochen|woche|wo',
  today: 'heute|aktuell|jetzt|alter heute|alter aktuell|aktuelles alter|alter jetzt',
  otherTime:
    'vorherig|vorherige|vorher|vorige|voriger|voriges|alt|alte|zuvor|anfangs|anfang|ausgangswert|beginn|letztes mal|ziel|soll|erwartet|erwartete|vorwert|differenz|zuwachs|wachstum',
  noise:
    'neu|neue|neuer|neues|beim|zum|nach|der|die|das|des|im|in|bei|von|vom|zu|zur|und|mit|letzte|letzter|letztes|aktuell|aktuelle|stand|messung|maß|wert|max|größter|ja nein|j n|jahre|tt mm jjjj|tt mm jj|j m|barfuß|barfuss|stehend|belastet|unbelastet|den|dem|bzw|über|ab|bis|boden|mitte|größte|stelle|angabe|laut|lt|seite|jahre monate|maximal|am|innen|gemessen',
  female: 'w|weiblich|mädchen|mädel|f|frau|weibl|mäd|wbl|mdl',
  male: 'm|männlich|junge|bub|knabe|jung|mann|männl|j|k|jg|mnl',
  yes: 'ja|j|wahr|x|pos|positiv|bekannt|allergie|+|jawohl|vorhanden',
  no: 'nein|n|falsch|neg|negativ|keine|kein|unauffällig|normal|intakt|nicht bekannt|keine bekannt|o b|ob|unbekannt',
  nothing:
    'k a|ka|keine angabe|nicht gemessen|n g|ng|nicht erschienen|n e|ne|entfällt|unbekannt|nicht möglich|verweigert|n m|nm|fehlt|abgesagt|n v|nv|keine messung|nicht da|nicht bekannt|entf|krank|ausgefallen|nicht messbar|n b|nb|n gem|nicht durchgeführt|offen|keine',
  ditto: 'dto|dito|desgl|desgleichen|wie oben|siehe oben|wie vorher',
  unchanged: 'wie bisher|wie zuvor|wie gehabt|unverändert|gleich|dieselbe|weiter',
  doubt:
    'ca|circa|etwa|ungefähr|ungef|geschätzt|mit schuh|mit schuhen|im schuh|in schuhen|unsicher|zappelt|unruhig|gesch|fraglich|schätzung|mit socken|liegend|unbelastet|nachmessen|in orthese|lt mutter',
  months:
    'januar jänner jan|februar feber feb|märz mär mrz|april apr|mai|juni jun|juli jul|august aug|september sep sept|oktober okt|november nov|dezember dez',
  totals: 'summe|gesamt|mittelwert|durchschnitt|anzahl|insgesamt|total|mittel|minimum|maximum|median',
  verdicts: {
    loose: 'locker|zu groß|weit|zu weit|groß|lose',
    good: 'gut|passt|ok|sitzt gut|sehr gut|in ordnung|i o|io|passend|sitzt|ja|passt gut|gute passform|o k|unauffällig',
    tight:
      'knapp|eng|etwas eng|wird eng|grenzwertig|bald zu klein|fast zu klein|wird knapp|etwas knapp|leicht eng',
    outgrown:
      'zu klein|zu kurz|herausgewachsen|rausgewachsen|passt nicht|passt nicht mehr|zu eng|nein|entwachsen|ausgewachsen',
  },
  endReasons: {
    outgrown:
      'zu klein|zu kurz|rausgewachsen|herausgewachsen|ausgewachsen|wachstum|gewachsen|zu eng|passt nicht mehr|klein|kurz',
    'worn-out': 'verschlissen|verschleiß|abgenutzt|abgetragen|durchgelaufen|alt',
    broken: 'gebrochen|bruch|kaputt|defekt|gerissen|riss|zerbrochen|beschädigt',
    lost: 'verloren|weg|verlust|abhanden|gestohlen',
    'function-changed':
      'funktion geändert|funktionsänderung|neue verordnung|andere versorgung|umversorgung|zieländerung|versorgungswechsel|befundänderung',
    surgery: 'op|operation|operiert|nach op|chirurgie',
    'tone-or-contracture': 'tonus|kontraktur|kontrakturen|spastik|tonusänderung|spastik zunahme',
    skin: 'haut|hautproblem|hautprobleme|druckstelle|druckstellen|blase|wund|dekubitus',
    transferred: 'umzug|verzogen|umgezogen|wechsel|übergabe|erwachsenenklinik',
    'no-longer-wanted':
      'nicht mehr benötigt|nicht mehr nötig|nicht benötigt|therapieende|therapie beendet|behandlung beendet|nicht getragen|abgelehnt|nicht toleriert|nicht gewünscht|nicht mehr gewünscht|abgeschlossen',
  },
  deviceStates: {
    ordered:
      'bestellt|in arbeit|in fertigung|in produktion|beantragt|wartet|in bearbeitung|in auftrag|genehmigung offen|in der werkstatt|zur anprobe',
    worn: 'getragen|in gebrauch|aktiv|abgegeben|ausgeliefert|aktuell|trägt|in nutzung|geliefert|wird getragen|versorgt',
    retired:
      'abgelegt|alt|zu klein|beendet|ersetzt|nicht getragen|ausgemustert|ausrangiert|verloren|defekt|nicht mehr getragen|abgeschlossen',
  },
  childStates: {
    active: 'aktiv|laufend|in behandlung|offen|in betreuung',
    'moved-away': 'verzogen|umgezogen|weggezogen|anderes haus|gewechselt',
    discharged: 'entlassen|abgeschlossen|beendet|inaktiv|abgemeldet',
    died: 'verstorben|gestorben|tot|†',
  },
};
