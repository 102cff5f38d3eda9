"""The words that say what a number is, by reason and language, as people write them.

A word is listed where it is a cue; the same word in two languages is listed once. German, Dutch and Scandinavian
compounds (`Rechnungsnummer`) need no entry: `knowledge.tokens.cues` takes them apart.
"""

from __future__ import annotations

from typing import Final

SERIAL: Final = "serial"  # the number of a machine, said so
NUMBER: Final = "number"  # a number, of what is not said
STAMPED: Final = "stamped"  # stamped, engraved: said of what stands on a machine
MARKED: Final = "marked"  # reads, says
FILLER: Final = "filler"  # may stand between a cue and its number
ASIDE: Final = "aside"  # 'on the invoice': what follows is a place, not the kind of number
PAUSE: Final = "pause"
STOP: Final = "stop"
DIGITS: Final = "digits"

WORDS: Final[dict[str, dict[str, str]]] = {
    SERIAL: {
        "English": "s/no s/nr ser/no serial serials serialno serialnumber s/n s.n. sn ser sernr serno",
        "German": "seriennummer seriennr fabriknummer fabriknr fabr masch maschinennr fertigungsnummer gestellnummer "
        "serien-nr serien fabrikations",
        "French": "série séries matricule fabrication",
        "Spanish": "serie fabricación",
        "Italian": "matricola matr seriale fabbricazione",
        "Dutch": "serienummer fabrieksnummer machinenummer serienr",
        "Polish": "seryjny seryjnego seryjnym fabryczny fabrycznego fabrycznym seryjne",
        "Russian": "зав сер серийный серийного серийным серийник заводской заводского заводским серия",
        "Swedish": "mask tillv tillverkn serienummer tillverkningsnummer tillverkningsnr maskinnummer serienumret",
        "Danish, Norwegian": "fabrikationsnummer fabrikknummer serienummeret stelnummer produksjonsnummer",
        "Portuguese": "série fabrico",
        "Czech": "výrobní sériové seriové vyrobni",
    },
    NUMBER: {
        "English": "no nos nº number numbers num numb nr nrs digits digit number's #",
        "German": "nummer nummern nrn ziffern ziffer zahl",
        "French": "n° numéro numéros n chiffres",
        "Spanish": "número números núm cifras dígitos",
        "Italian": "numero numeri cifre",
        "Dutch": "nummers getal cijfers",
        "Polish": "numer numery numeru numerem numerze cyfry",
        "Russian": "номер номера номером номере ном цифры",
        "Swedish": "numret siffror siffrorna",
        "Danish, Norwegian": "nummeret tal tall cifre siffer",
        "Czech": "číslo čísla číslem",
    },
    STAMPED: {
        "English": "stamped stamp engraved punched inscribed incised etched",
        "German": "gestempelt eingestempelt eingeschlagen eingraviert graviert geprägt eingeprägt gestanzt eingestanzt",
        "French": "gravé gravée frappé frappée poinçonné poinçonnée estampillé estampillée",
        "Spanish": "grabado grabada estampado estampada troquelado",
        "Italian": "inciso incisa stampigliato stampigliata punzonato punzonata impresso impressa",
        "Dutch": "gestempeld ingeslagen gegraveerd gestanst ingeslagen",
        "Polish": "wybity wybite wybita wytłoczony wytłoczone wygrawerowany nabity nabite",
        "Russian": "выбит выбито выбита выбитый выгравирован выгравировано отчеканен",
        "Swedish": "instansat instansad stämplat stämplad stansat präglat graverat instämplat",
        "Danish, Norwegian": "stemplet præget indgraveret innstemplet indstemplet",
        "Portuguese": "gravado gravada carimbado",
        "Czech": "vyraženo vyražené vyražen",
    },
    MARKED: {
        "English": "written read reads reading say says marked bears bearing looks numbered lists listed shows showing",
        "German": "geschrieben steht lautet abgelesen lese",
        "French": "écrit lis marque marqué inscrit porte",
        "Spanish": "escrito pone marcado dice leo lleva",
        "Italian": "scritto leggo porta",
        "Dutch": "geschreven staat luidt",
        "Polish": "napisane widnieje",
        "Russian": "стоит написано значится указан указано",
        "Swedish": "står",
        "Danish, Norwegian": "står",
    },
    "order-number": {
        "English": "cat job jobs vacancy course student employee staff username staff order orders ordernumber "
        "invoice invoices tracking parcel consignment shipment delivery booking "
        "reservation receipt ticket voucher coupon lot lots batch membership member members subscriber customer "
        "account acct policy claim transaction payment purchase po bill docket waybill awb case-no auction bid "
        "listing item items sku consignor bidder paddle reference ref refs quote quotation confirmation",
        "German": "personal matrikel bestellung bestellungen aufträge rechnungen sendungen mitglieder bestell "
        "bestellnr auftrag auftrags auftragsnr rechnung rechnungs "
        "rechnungsnr sendung "
        "sendungs paket lieferung lieferschein liefer mitglied mitglieds mitgliedsnr kunden kunde kundennr konto "
        "kontonr los losnr buchung buchungs vorgangs vorgang beleg charge chargen aktenzeichen artikel artikelnr "
        "anzeige anzeigen versicherungs sendungsverfolgung katalog inventar",
        "French": "commande commandes facture factures colis suivi adhérent adhérente membre client compte lot "
        "réservation dossier "
        "référence réf livraison expédition abonné article billet",
        "Spanish": "pedido pedidos factura facturas seguimiento envío socio socia cliente cuenta lote reserva "
        "referencia albarán",
        "Italian": "ordine ordini fattura fatture spedizione tessera socio cliente conto lotto prenotazione "
        "riferimento rif articolo",
        "Dutch": "bestelling bestellingen facturen factuur zending lidmaatschap lid klant rekening kavel "
        "boeking pakket reservering "
        "referentie kenmerk artikel bestel",
        "Polish": "zamówień paczki przesyłek faktury zamówienie zamówienia zamówieniu faktura faktury fakturze "
        "przesyłka przesyłki paczka paczki "
        "członka członkowski członkowska legitymacja legitymacji klienta konto konta partia partii rezerwacja",
        "Russian": "заказ заказы заказов счета посылок заказа счет счета счёт накладная накладной посылка "
        "посылки отправление отслеживания трек "
        "членский билет билета клиента лот договор договора партия трек-номер",
        "Swedish": "beställning beställningar order ordrar fakturor faktura paket försändelse medlem medlems "
        "kund kundnr konto parti bokning "
        "spårnings kolli fakturanr ordernr",
        "Danish, Norwegian": "ordre bestilling forsendelse sporings medlem kunde pakke",
        "Portuguese": "encomenda fatura sócio conta rastreio",
        "Czech": "objednávka objednávky faktura zásilka zásilky člen účet",
    },
    "part-number": {
        "English": "part parts casting cast castings needle needles bobbin bobbins shuttle shuttles foot feet "
        "presser "
        "pattern patterns motor cabinet belt bulb lamp attachment attachments p/n pn spool cam cams "
        "stand hook gear screw spring mould mold cover catalog catalogue manual booklet form leaflet drawing "
        "oil thread spares spare motors pedal controller plug template",
        "German": "teil teile teilenr ersatzteil ersatzteilnr guss gussnr gußnr nadel nadeln nadelsystem spule "
        "spulen "
        "schiffchen füßchen nähfuß motornr schnittmuster garn keilriemen riemen glühlampe form formnr kat "
        "zubehör anleitung ersatzteile gestell tischnr",
        "French": "pièce pièces aiguille aiguilles canette canettes navette moule fonte pied moteur courroie patron "
        "ampoule fil notice",
        "Spanish": "pieza piezas aguja agujas canilla canillas bobina lanzadera fundición molde prensatelas correa "
        "patrón hilo repuesto",
        "Italian": "pezzo ricambio ricambi ago aghi bobina spolina navetta fusione stampo piedino cinghia filo motore",
        "Dutch": "onderdeel onderdelen naald naalden spoel spoeltje spoeltjes gietnummer voetje riem garen "
        "onderdeelnr schuitje giet patroon",
        "Polish": "część części igła igły igieł szpulka szpulki bębenek odlew odlewu stopka czółenko pasek silnik "
        "silnika",
        "Russian": "артикул деталь детали игла иглы игл шпулька шпульки челнок отливки литье лапка двигатель "
        "двигателя ремень "
        "каталог каталожный",
        "Swedish": "del delar reservdel reservdels nål nålar spole spolar gjut gjutnummer skyttel pressarfot "
        "motor rem "
        "detalj artikel",
        "Danish, Norwegian": "reservedel varenummer nåle støbe",
        "Portuguese": "peça peças agulha agulhas fundição",
        "Czech": "díl dílu jehla jehly jehel odlitku",
    },
    "patent": {
        "English": "patent patents patented pat pats regd rd design designs registered registration diamond "
        "patentno trademark",
        "German": "patente patentiert patentnr drp drgm d.r.p. d.r.g.m. s.g.d.g. geschmacksmuster gebrauchsmuster",
        "French": "brevet brevets brevetée breveté dépôt sgdg",
        "Spanish": "patentes patentado patentada",
        "Italian": "brevetto brevetti brevettato brevettata",
        "Dutch": "octrooien octrooi octrooinummer gepatenteerd",
        "Polish": "patenty patentów patentu patentowy patentowego opatentowany",
        "Russian": "патенты патентов патент патента патентом",
        "Swedish": "patenterad patenterat patentet",
        "Portuguese": "patenteado",
        "Czech": "patentu patentováno",
    },
    "telephone": {
        "English": "taxi phone phones telephone tel mobile cell cellphone call calls calling callback ring ringing "
        "whatsapp "
        "fax text txt sms landline dial reach extension ext hotline helpline signal contact mob ph",
        "German": "telefon telefonnr telefonisch handy anrufen anruf mobil mobilnr rufnummer ruf durchwahl fon "
        "erreichbar "
        "rückruf rufen hotline festnetz",
        "French": "téléphone portable appelez appeler appelle appelez-moi joindre",
        "Spanish": "teléfono móvil llamar llama llame llámame tfno tlf tfn",
        "Italian": "telefono cellulare cell chiamare chiama chiamatemi",
        "Dutch": "telefoon mobiel bel bellen telefoonnr 06-nummer bereikbaar",
        "Polish": "telefonu komórka komórkowy dzwonić zadzwoń dzwoń kom",
        "Russian": "телефон телефоны телефонов телефона тел моб звоните позвоните звонить звони мобильный факс вотсап",
        "Swedish": "telefonen mobilen ring ringa mob tfn mobilnummer",
        "Danish, Norwegian": "tlf mobilnr telefonnummeret",
        "Portuguese": "telemóvel telefone ligar ligue",
        "Czech": "mobilní volat volejte volejte",
    },
    "price": {
        "English": "price prices priced cost costs paid pay paying worth asking sold offered offering valued "
        "value appraised "
        "estimate dollars pounds bucks fetch fetched bargain budget",
        "German": "preis kostet kosten gekostet bezahlt zahle vb vhb verkaufe wert angebot festpreis",
        "French": "prix coûte coûté payé vends valeur",
        "Spanish": "precio cuesta costó pagué vendo valor pagado",
        "Italian": "prezzo costa costato pagato pagata vendo valore",
        "Dutch": "prijs kost gekost betaald vraagprijs waarde",
        "Polish": "cena cenę kosztuje kosztowała zapłaciłem zapłaciłam wartość",
        "Russian": "цена цену стоит стоила заплатил заплатила",
        "Swedish": "pris kostar kostade betalade värd",
        "Danish, Norwegian": "koster kostet betalte pris",
        "Portuguese": "preço custa paguei",
        "Czech": "cena stojí zaplatil",
    },
    "postcode": {
        "Address": "address adresse dirección indirizzo adres adress адрес adresa anschrift endereço",
        "English": "postcode postcodes zip zipcode postal",
        "German": "plz postleitzahl",
        "French": "cp",
        "Italian": "cap",
        "Polish": "pocztowy",
        "Russian": "индекс",
        "Swedish": "postnummer postnr",
    },
    "web-address": {"English": "url website link skype"},
    "reference": {
        "English": "film song record negative drawer odometer reg newsletter bulletin magazine gazette isbn issn ean "
        "barcode p p.o. page pages pg pp issue issues volume vol chapter chap fig figure table flight "
        "flights numberplate registration vrn iban bic swift sort passport inv licence license vat tax vat-id "
        "ust-idnr ust-id "
        "pin password passcode passwort code codes room suite flat apartment apt bus tram train line platform gate "
        "seat house street road avenue lane box pobox locker channel version build ver v windows ios android "
        "firmware thread-no post posts topic thread error step score photo photos picture "
        "image img slide fileno file charity company companies entry stall booth table hall group "
        "vin chassis engine accession inventory museum catalogue meeting agenda minutes item case section para "
        "clause article rule rfc grid id uid login user width height depth length weight weighs population visitors "
        "size "
        "sizes chapter lottery raffle draw winning imei sim card bank locker key diary box boxes wifi psalm "
        "hymn verse bingo lotto jackpot postbox meter reading isrc doi odometer mileage train",
        "German": "personalausweis reisepass pass führerschein rahmen passwort rundbrief zeitschrift "
        "mitteilungsblatt seite seiten heft ausgabe band kapitel abb abbildung flug flugnr kennzeichen kfz konto blz "
        "ust ustid "
        "steuernr hrb hrg zimmer haus hausnr straße platz gleis zug linie bus version größe ausweis pin "
        "kennwort zugangscode tisch halle stand postfach bild foto frage aktenzeichen az vereinsregister vr "
        "steuer steuernummer inventarnr raum etage zählerstand los",
        "French": "page pages numéro-du-magazine revue tome chapitre figure vol plaque immatriculation siret "
        "siren tva "
        "code chambre rue bus ligne quai taille carte bp photo question inventaire poids",
        "Spanish": "apartado pasaporte clave contraseña página páginas ejemplar tomo capítulo figura vuelo matrícula "
        "código habitación calle autobús línea "
        "talla nif cif foto pregunta peso",
        "Italian": "casella passaporto pagina pagine volume capitolo figura volo targa codice stanza via autobus "
        "linea taglia foto domanda peso",
        "Dutch": "pagina blz bladzijde nummer-van hoofdstuk vlucht kenteken kamer straat bus lijn maat kvk btw bsn "
        "foto vraag",
        "Polish": "strona stronie strony str rozdział rysunek rys lot lotu rejestracyjny rejestracyjna rejestracja "
        "kod pokój "
        "ulica ul autobus linia rozmiar nip regon pesel krs zdjęcie",
        "Russian": "пароль страница странице стр глава рис рейс рейса госномер код комната улица ул дом автобус "
        "размер инн "
        "огрн фото паспорт квартира кв",
        "Swedish": "sida sidan kapitel figur flyg registrerings regnr rum gata buss linje storlek orgnr "
        "organisations person "
        "personnummer kod foto bild utgåva",
        "Danish, Norwegian": "side værelse kode bane registreringsnummer cvr cpr",
        "Portuguese": "página capítulo voo quarto rua código tamanho",
        "Czech": "strana straně kapitola obrázek pokoj ulice kód velikost ičo dič",
    },
    "model-name": {
        "English": "model models type class mark mk style version",
        "German": "modell modelle typ klasse baureihe",
        "French": "modèle modèles classe",
        "Spanish": "modelo modelos tipo clase",
        "Italian": "modello modelli classe",
        "Dutch": "modellen klasse",
        "Polish": "modelu typu klasa klasy",
        "Russian": "модель модели модел тип типа класс класса",
        "Swedish": "modellen klass",
        "Portuguese": "modelos",
    },
    FILLER: {
        "punctuation": ": = ( [ \" ' - > ° / ` * _ ~",
        "English": "me mine ours yours hers theirs myself gran's grandmother's nan's mum's mother's aunt's "
        "sister's grandma's just only "
        "simply exactly is was it its it's the a an are be as being of for my our your her his their me us there "
        "that's that this here to than i i've have has got and or think should seems appears like also full whole "
        "complete exact below following with which one please under would i'd say",
        "German": "mich mir meins unsere unsre deine ihre nur bloß genau ist war die der das den dem des ein "
        "eine einer eines mein meine "
        "meiner meines unser unsere unter "
        "also von vom für und oder auf hat habe mit lautet wohl wäre die ganze",
        "French": "moi mienne mien nôtre sienne vôtre m'a seulement juste est était le la les l un une de du "
        "des d mon ma notre sur et ou pour "
        "c'est avec au",
        "Spanish": "mía mío nuestra nuestro suya solo solamente es era el los las una del mi su y o para con al en",
        "Italian": "nostra nostro sua soltanto solo è il lo gli della dello dell di e per con mia mio sul sulla",
        "Dutch": "mij onze maar mijne slechts alleen het een van mijn ons onze en of voor met op",
        "Polish": "mnie nasza nasz twoja tylko dokładnie jest to był mój moja moje mojej mojego i lub na",
        "Russian": "меня мне наша наш всего лишь только ровно это мой моя моей моего и или на такой вот был",
        "Swedish": "mig vår våran bara är var den det min mitt vår och eller på av för som",
        "Danish, Norwegian": "er ein og på mitt min eller",
        "Portuguese": "o é da do um uma e na",
        "Czech": "je a nebo na můj moje",
    },
    ASIDE: {
        "English": "on at from in with under inside behind near by",
        "German": "auf an in aus vom am im beim bei unter",
        "French": "sur dans sous",
        "Spanish": "en sobre bajo",
        "Italian": "sul sulla nel nella su",
        "Dutch": "op in onder uit",
        "Polish": "na w pod przy z",
        "Russian": "на в под у",
        "Swedish": "på i under från vid",
    },
    PAUSE: {"punctuation": ", \n )"},
    STOP: {"punctuation": "! ? ;"},
}
