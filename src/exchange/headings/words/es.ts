import type { Vocabulary } from '../vocabulary.js';

export const es: Vocabulary = {
  fields: {
    'child.id':
      'dni|nie|nif|expediente|n expediente|cip|tarjeta sanitaria|n historia|nº historia|no historia|num historia|numero historia|historia|historia clinica|nhc|n hc|n historia clinica|numero de historia|numero de historia clinica|n paciente|no paciente|id paciente|expediente|n expediente|codigo|codigo paciente|cip|n de historia|no de historia|num paciente|numero paciente|sip|n ficha|ficha|hc',
    'child.name':
      'nombre y apellidos|apellidos y nombre|apellidos nombre|nombre completo|nombre apellidos|nombre del niño|nombre paciente|nombre del paciente|nombre y apellido|iniciales',
    'child.first_name': 'nombre de pila',
    'child.last_name': 'apellidos|apellido|primer apellido|1er apellido',
    'child.birth_date':
      'nacimiento|fecha nacimiento|fecha de nacimiento|f nacimiento|f nac|fnac|fecha nac|nacido|nacido el|fdn|fn|f n|nac|f de nacimiento|fecha de nac|nacida el|f de nac|fech nac|año de nacimiento|año nacimiento|año nac',
    'child.sex': 'sexo|genero|v m|m v|h m|m h|niño niña|hombre mujer|varon mujer',
    'child.gestation_weeks':
      'semanas gestacion|semanas de gestacion|eg|edad gestacional|gestacion|sg|prematuro semanas|semanas al nacer',
    'child.conditions':
      'diagnostico|diagnosticos|patologia|dx|diag|enfermedad|indicacion|dco|patologias|motivo|diagnostico principal|dg',
    'child.affected_side': 'lado afecto|lado afectado|afectacion|lado afecta|afectado',
    'child.insensate_skin':
      'sensibilidad|insensible|perdida de sensibilidad|piel insensible|alteracion sensibilidad',
    'child.latex_alert': 'latex|alergia latex|alergia al latex',
    'child.palliative': 'paliativo|paliativos|cuidados paliativos',
    'child.walks': 'camina|anda|marcha|deambula|deambulante|deambulacion',
    'child.sibling_group': 'hermanos|hermano|gemelo|gemelos|mellizo',
    'child.transport_days': 'dias transporte|transporte|ambulancia dias',
    'child.prefers_holidays': 'vacaciones',
    'child.clinician':
      'tecnico|ortopeda|medico|ortoprotesista|tecnico ortopedico|terapeuta|visto por|profesional|rehabilitador|fisio|especialista|ortesista',
    'child.contact':
      'contacto|telefono|tel|movil|padres|madre|tfno|tlf|telefono contacto|telf|telefono madre|n telefono|tfno madre|telefonos|correo|tutor|telefono de contacto',
    'child.language': 'idioma|lengua',
    'child.status': 'estado|estado paciente|activo|situacion',
    'visit.date':
      'visita|fecha visita|consulta|fecha consulta|cita|fecha cita|revision|fecha revision|medido|fecha medicion|fecha medida|medicion|ultima visita|ultima revision|control|fecha control|fecha de visita|fecha de medicion|fecha de consulta|fecha medidas|visto el|fecha de revision|ultima consulta|toma de medidas|fecha toma de medidas|fecha de medida|f visita|f revision|f medicion|f consulta|fecha de la visita|f medida|fecha mediciones|exploracion|fecha exploracion',
    'visit.age':
      'edad en la visita|edad visita|edad medicion|edad en consulta|edad a la visita|edad al medir|edad en revision',
    'visit.method': 'metodo|instrumento|metodo de medida',
    'visit.observer': 'medido por|observador|examinador|tomado por',
    'long.measure': 'medida|parametro|dimension|tipo de medida|que|magnitud|variable',
    'long.value': 'valor|resultado|lectura|valor medido',
    'long.unit': 'unidad|unidades|ud|uds',
    side: 'lado|lateralidad|i d|d i|izq der|izquierda derecha|izdo dcho|pierna|izq dcha|miembro',
    'device.id': 'n pedido|pedido|n dispositivo|n ortesis|numero de serie|n serie',
    'device.family':
      'ortesis|dispositivo|aparato|ferula|ferulas|producto|tipo ortesis|tipo de ortesis|ortetica|prescripcion|tipo de aparato|producto ortopedico|corse|tratamiento ortesico|ayuda tecnica|aparatos|prescrito|articulo|tipo de ferula|tipo|tratamiento|ortesis prescrita|ortesis tipo|tipo de dispositivo|dispositivo prescrito',
    'device.cast_date':
      'molde|fecha molde|fecha de molde|escayola|escaneo|escaneado|fecha escaneo|toma molde|toma de molde|fecha toma de molde|moldeado|negativo|fecha toma molde|f molde|escaneado el|fecha de escaneo|fecha de toma de molde|yeso|fecha yeso',
    'device.fitted_date':
      'entrega|fecha entrega|fecha de entrega|entregado|entregado el|adaptacion|fecha adaptacion|colocacion|puesta|f entrega|entregada|fecha colocacion|suministro|fecha de adaptacion|lleva desde|desde|en uso desde|lo lleva desde|colocado|colocado el|puesto el|suministrado',
    'device.end_date':
      'fin|fecha fin|fecha de fin|fecha final|retirada|retirado|retirado el|retirada el|fecha retirada|fecha de retirada|baja|fecha baja|fecha de baja|hasta|sustituido el|sustituida el|fin de uso|fuera de uso|lleva hasta|en uso hasta',
    'device.end_reason':
      'motivo fin|motivo de fin|motivo retirada|motivo de retirada|motivo baja|motivo de baja|motivo cambio|motivo del cambio|motivo de cambio|motivo sustitucion|razon fin|razon de fin|razon|causa fin|causa de retirada|por que|motivo',
    'device.status': 'estado|estado ortesis|estado aparato|estado de la ortesis|en uso',
    'device.footplate': 'plantilla base|suela',
    'device.verdict':
      'ajuste|adaptacion actual|encaje|como queda|le queda|tolerancia|estado ajuste|queda bien|valoracion',
    'shoe.size':
      'zapato|calzado|talla zapato|numero de zapato|n zapato|numero calzado|talla calzado|n calzado|n pie|numero de pie|talla de zapato|num zapato|numero de calzado',
    'marker.menarche': 'menarquia|primera regla|primera menstruacion|menarca',
    'marker.pelvis_stage': 'risser|estadio risser|signo de risser|test de risser',
    'marker.hand_stage': 'sanders|estadio sanders|estadio de sanders',
    'marker.bone_age': 'edad osea|eo',
  },
  kept: 'horas|horas dia|horas de uso|horas al dia|percentil|n|n orden|orden|fila|proxima visita|proxima revision|proxima cita|proximo control|direccion|ciudad|cp|codigo postal|colegio|gmfcs|nivel gmfcs|seguro|aseguradora|poblacion|seguridad social|derivado por|proxima|imc|renovacion|fecha renovacion|cirugia|toxina|botox|procedencia|plan|cobb|angulo|angulo de cobb|localidad|telefono medico|envergadura|braza',
  remarks: 'nota|notas|observaciones|observacion|comentario|comentarios|varios|incidencias|hallazgos',
  skin: 'piel|estado de la piel|rojeces|marcas',
  parts: {
    foot: 'pie|pies|planta',
    heel: 'talon',
    ankle: 'tobillo|maleolo|tobillos|maleolar|maleolos|supramaleolar|bimaleolar',
    calf: 'pantorrilla|gemelar|gemelos perimetro|pantorrillas',
    knee: 'rodilla|interlinea|rodillas',
    fibula: 'cabeza perone|cabeza de perone|cabeza del perone|perone|cabeza fibula',
    thigh: 'muslo|muslos',
    hip: 'cadera|caderas',
    trochanter: 'trocanter|trocanter mayor',
    asis: 'eias|espina iliaca',
    leg: 'pierna|piernas|mmii|miembro inferior|extremidad inferior|miembros inferiores',
    trunk: 'tronco',
    pelvis: 'pelvis|pelvico|pelvica',
    waist: 'cintura|abdomen|abdominal',
    chest: 'pecho|torax|toracico',
    axilla: 'axila|axilar',
    head: 'cabeza|craneo|craneal|cefalico|cefalica',
  },
  dimensions: {
    length: 'longitud|largo|long|larg|lon|longuitud|lg',
    breadth: 'anchura|ancho|anch|diametro|an',
    height: 'altura|alto|alt',
    girth: 'perim|perimetro|contorno|circunferencia|circ|per|perim|vuelta|p|contorn',
    diagonal: 'diagonal|diag|oblicua',
  },
  measures: {
    foot_length:
      'longitud pie|longitud del pie|largo pie|largo del pie|pie|long pie|largo de pie|longitud de pie|longitud plantar',
    foot_breadth:
      'anchura pie|ancho pie|ancho del pie|metatarsos|ancho metatarsal|anchura metatarsal|anchura del pie|antepie|ancho de pie',
    heel_breadth: 'ancho talon|anchura talon|ancho de talon',
    malleolar_breadth: 'ancho maleolar|ancho tobillo|bimaleolar|anchura maleolar',
    ankle_height: 'altura tobillo|altura maleolo|altura maleolar|altura del tobillo',
    ankle_girth: 'perimetro tobillo|contorno tobillo|tobillo|perimetro de tobillo|contorno de tobillo',
    calf_girth:
      'perimetro pantorrilla|contorno pantorrilla|pantorrilla|perimetro gemelar|gemelos|perimetro de pantorrilla|contorno de pantorrilla',
    knee_height: 'altura rodilla|altura interlinea|suelo rodilla|altura de rodilla|altura de la rodilla',
    fibular_head_height:
      'altura cabeza perone|altura cabeza del perone|suelo cabeza perone|altura perone|altura cabeza de perone',
    hip_height: 'altura trocanter|altura cadera|suelo trocanter|altura de cadera',
    asis_height: 'altura eias|suelo eias',
    leg_length: 'longitud subisquiatica|entrepierna|tiro|altura entrepierna',
    asis_malleolus_length:
      'longitud pierna|longitud mmii|longitud de pierna|longitud miembro inferior|eias maleolo|longitud piernas|largo pierna|largo de pierna|longitud de la pierna',
    sitting_height:
      'talla sentado|talla sentada|altura sentado|altura sentada|altura tronco|ts|talla en sedestacion|talla sentad',
    stature: 'talla|estatura|altura|talla de pie|longitud corporal|altura total|talla total|longitud supina',
    thigh_girth: 'perimetro muslo|contorno muslo|muslo|perimetro de muslo|contorno de muslo',
    hip_girth: 'perimetro cadera|contorno cadera|caderas|contorno de cadera|perimetro de cadera',
    waist_girth: 'cintura|perimetro cintura|perimetro abdominal|contorno cintura|contorno de cintura',
    chest_girth: 'perimetro toracico|contorno pecho|contorno de pecho|perimetro torax',
    axillary_girth: 'perimetro axilar|contorno axilar|contorno axila',
    pelvic_breadth: 'ancho pelvis|anchura pelvis|ancho pelvico|biiliaco|ancho de pelvis|anchura pelvica',
    head_circumference:
      'perimetro cefalico|pc|perimetro craneal|contorno cabeza|circunferencia craneal|perimetro cabeza|contorno de cabeza',
    head_breadth: 'ancho cabeza|anchura craneal|ancho craneal|anchura cabeza',
    head_length: 'longitud cabeza|longitud craneal|largo cabeza',
    head_diagonal: 'diagonal|diagonal craneal|diagonal cabeza',
    weight: 'peso|peso corporal|masa',
  },
  left: 'izquierda|izquierdo|izq|izqda|izqdo|izda|izdo|i|iz|izqu',
  right: 'derecha|derecho|der|dcha|dcho|d|dch|dr|dra',
  both: 'ambos|ambas|bilateral|bilat|los dos|bilaterales|i d|d i|izq y der|par|los 2|ambos lados|izquierda y derecha|derecha e izquierda|derecho e izquierdo|x2|bil|dos|2|izq der|izquierda derecha|derecha izquierda|izq y dcha|dcha e izq|dcho e izdo|i y d|d e i|las dos|un par',
  person: 'bebe|lactante|niño|niña|paciente|pac|menor|usuario|nene|alumno|alumna',
  name: 'nombre',
  number: 'n|no|num|numero|id|codigo|nº',
  date: 'fecha|dia|el|f|fech',
  age: 'edad',
  ageMonths: 'meses|mes',
  ageWeeks: 'semanas|semana|sem',
  today: 'actual|hoy|edad actual',
  otherTime:
    'anterior|previo|previa|antes|inicial|inicio|esperado|esperada|objetivo|previsto|prevista|diferencia|crecimiento',
  noise:
    'nuevo|nueva|durante|para|de|del|la|el|los|las|en|y|a|al|ultimo|ultima|actual|valor|si no|s n|años|dd mm aaaa|dd mm aa|descalzo|carga|en carga|max|maximo|maxima|medida|toma|por|suelo|bipedestacion|con|lado|mayor|un|una|años meses|desde',
  female: 'f|mujer|niña|femenino|fem|hembra|chica|m mujer',
  male: 'm|varon|niño|masculino|masc|v|h|hombre|chico',
  yes: 'si|s|verdadero|x|positivo|conocida|alergia|+|sí|alergico|presente',
  no: 'no|n|falso|negativo|ninguna|ninguno|normal|conservada|intacta|no conocida|no alergias|ninguna conocida',
  nothing:
    'nd|no medido|n a|na|no acude|no procede|sin datos|desconocido|no|imposible|cancelado|n p|np|no medida|sin dato|no consta|nc|no acudio|no vino|s d|sd|no realizado|no se mide|ausente|no valorable|n c|ns|pendiente|no colabora',
  ditto: 'idem|igual que arriba|como arriba|ver arriba|igual',
  unchanged: 'como antes|sin cambios|el mismo|la misma|mismo|misma',
  doubt:
    'aprox|aproximado|aproximadamente|unos|con zapatos|con zapato|calzado|estimado|dudoso|se mueve|inquieto|con calzado|a revisar|estimada|con calcetin|tumbado|segun madre|llora',
  months:
    'enero ene|febrero feb|marzo mar|abril abr|mayo may|junio jun|julio jul|agosto ago|septiembre sep sept set|octubre oct|noviembre nov|diciembre dic',
  totals: 'total|suma|media|promedio|numero|recuento|totales|mediana',
  verdicts: {
    loose: 'grande|holgado|holgada|suelto|suelta|ancho',
    good: 'bien|bueno|buena|correcto|ok|adecuado|perfecto|buen ajuste|correcta|adecuada|b',
    tight:
      'justo|justa|apretado|apretada|algo justo|un poco justo|casi pequeño|empieza a quedar pequeño|algo justa|le aprieta',
    outgrown:
      'pequeño|pequeña|se ha quedado pequeño|corto|corta|no le vale|demasiado pequeño|muy pequeño|le queda pequeño|le queda pequeña|le queda corto|no sirve|se ha quedado pequeña|cambiar',
  },
  endReasons: {
    outgrown:
      'pequeno|pequena|se queda pequeno|se queda pequena|quedo pequeno|quedo pequena|muy pequeno|demasiado pequeno|demasiado pequena|corto|corta|crecimiento|crecio|aprieta|le aprieta|ya no le cabe',
    'worn-out': 'desgaste|gastado|gastada|desgastado|desgastada|viejo|vieja',
    broken: 'roto|rota|rotura|partido|partida|fisura|averia|averiado',
    lost: 'perdido|perdida|extraviado|extraviada|robado|robada',
    'function-changed':
      'cambio de funcion|nueva prescripcion|cambio de prescripcion|cambio de ortesis|cambio de objetivo',
    surgery: 'cirugia|operacion|operado|operada|iq',
    'tone-or-contracture': 'tono|espasticidad|contractura|contracturas|cambio de tono',
    skin: 'piel|rozadura|rozaduras|ulcera|herida|ampolla|lesion',
    transferred: 'traslado|trasladado|trasladada|mudanza|adultos',
    'no-longer-wanted':
      'no necesario|no necesita|ya no necesita|ya no necesario|fin de tratamiento|fin del tratamiento|alta|no la usa|no lo usa|no tolera|rechazo|rechaza|rechazado|no usado',
  },
  deviceStates: {
    ordered:
      'pedido|encargado|en fabricacion|pendiente|en curso|encargada|pedida|solicitado|pendiente de entrega|en taller|pendiente entrega',
    worn: 'en uso|usa|lleva|entregado|actual|activo|entregada|activa|puesta|vigente',
    retired:
      'retirado|antiguo|pequeño|sustituido|no usa|terminado|retirada|antigua|baja|sustituida|roto|perdido|fuera de uso',
  },
  childStates: {
    active: 'activo|activa|en seguimiento',
    'moved-away': 'trasladado|se ha mudado|cambio de domicilio|traslado|trasladada|otro centro',
    discharged: 'alta|inactivo|de alta|baja|inactiva|cerrado',
    died: 'fallecido|fallecida|exitus|muerto',
  },
};
