"""What words mean when somebody asks about a machine, in nine languages.

Words are written folded (no capitals, no accents); `_` joins words that mean something only together, and the longest
entry that fits a place is taken; `#` stands for a number; a word that ends in `*` stands for all that begin so. A word
may have several meanings. To add a way people talk, add its words here.
"""

from __future__ import annotations

TABLE: dict[str, str] = {
    # --- asking
    "what": "what which whats wat wot wht whch wich welch* was_ist was_habe was_hab was_haben was_fur was_kann "
    "was_konnte was_war was_sagt was_weiss was_wisst was_ware quel quelle quels quelles quoi qu_est que cual cuales "
    "quale quali che cosa cos_e welk welke jaki jaka jakie ktory ktora ktorego ktorym jakiego jakiej co какой какая "
    "какое какие какого каком какому что vilken vilket vilka vilket_ar vad qual wo_fur_eine что_это_за что_за "
    "che_cos_e wat_is_dit wat_is_dat",
    "how": "how hows wie comment cuantos cuanto quanti quante quanto hoe ile jak сколько как hur quantos "
    "how_much_old how_early how_late how_much_older how_many_years how_long how_long_ago hwo",
    "when": "de_quand de_cuando di_quando von_wann van_wanneer från_nar when whens whn wen wann quand cuando quando "
    "wanneer kiedy когда nar in_what_time what_time",
    "who": "who whos wer qui quien quienes chi wie_heeft kto кто vem",
    "where": "where wheres wo donde dove dov waar gdzie где var onde ou_est ou_sont ou_se ou_peut ou_puis "
    "ou_trouver ou_a whereabouts where_abouts",
    "anyone": "anyone anybody any1 any_one someone somebody some1 anyboby experts expert folks guys people "
    "who_knows who_can who_could can_you could_you would_you can_u could_u can_one can_ye jemand irgendjemand "
    "irgendwer wer_kann wer_weiss wer_konnte einer quelqu_un quelquun qui_peut qui_sait qui_connait qui_pourrait "
    "alguien quien_sabe qualcuno chi_sa chi_puo iemand wie_weet wie_kan ktos kto_wie ktokolwiek кто_нибудь кто_то "
    "кто_знает nagon nagon_som alguem vous_pouvez podeis sapete konnt have_you_got have_you_any if_you_could "
    "you_could_help you_could_tell if_anyone if_anybody if_someone if_somebody if_any_of_you whether_anyone "
    "whether_someone whether_anybody whether_you if_you_can if_you_know any_of_you connaissez_vous savez_vous "
    "kennt_ihr wisst_ihr conoceis conoscete znacie знаете kunnen_jullie weten_jullie wer_kennt pouvez_vous "
    "sauriez_vous auriez_vous would_you_put would_you_give",
    "please": "please pls plz plse plese pleas bitte svp s_il_vous_plait s_il_te_plait por_favor per_favore "
    "per_cortesia favor alstublieft alsjeblieft aub prosze пожалуйста snalla gratefully kindly",
    "help": "help hlp helping assist assistance hilf* helft helfen weiterhelfen aide aider aidez ayuda ayudar "
    "ayudarme aiuto aiutare aiutarmi aiutate hulp pomoc pomoze pomozcie помогите помочь помощь hjalp hjalpa ayudais "
    "helpen hjalper",
    "look-up": "look_up look_it_up look_this_up look_mine_up look_her_up check tell_me tell_us sag_mir sagt_mir "
    "dites_moi decidme ditemi vertel_me powiedzcie скажите подскажите checking",
    "tell": "tell_me tell_us sag_mir sagt_mir dites_moi decidme ditemi vertel_me скажите подскажите know knows tell "
    "say find_out finding_out work_out working_out work_it_out figure_out figure_it_out learn hear look_up "
    "look_it_up look_this_up look_mine_up explain enlighten advise weiss wei wissen wisst sagen herausfinden "
    "erfahren kennt kennen nachsehen nachschauen rausfinden savoir sait savez sais connait connaissez connaitre "
    "dire trouver sabe saber sabeis decir decirme decime conoce sa sapere sai dirmi conosce conoscere weet weten "
    "vertellen zeggen kent uitzoeken wie_wie wiedziec powiedziec powie zna dowiedziec sprawdzic знает знать узнать "
    "сказать подскажет vet veta saga kanner ta_reda_pa known figuring_out confirm verify clarify look_at_this "
    "look_at_# look_at_my make_sense_of have_a_look familiar tar_reda_pa tar_jag_reda_pa feststellen dahinterkommen "
    "to_know to_find_out to_learn how_to_find how_to_find_out how_to_date how_to_tell how_to_identify how_to_work "
    "how_to_read who_knows wer_weiss qui_sait qui_connait quien_sabe chi_sa wie_weet kto_wie кто_знает "
    "connaissez_vous savez_vous kennt_ihr wisst_ihr conoceis conoscete znacie знаете was_wisst wer_kennt renseigner "
    "understand how_i_can a_way_to_find_out nennen",
    "wish": "want wants wanna would_like d_like would_love d_love id_like id_love like_to love_to need trying "
    "hoping interested interest keen grateful appreciated appreciate would_be_great would_be_nice would_be_lovely "
    "would_be_good be_appreciated be_great most_welcome seeking looking_for looking_to searching_for after love_a "
    "like_a mochte mochten wurde_gern* wusste_gern* wurden_gern* gern gerne interessier* suche gesucht versuche "
    "voudrais voudrait aimerais aimerait cherche souhaite quisiera gustaria busco quiero vorrei cerco desidero "
    "mi_piacerebbe zou_graag graag zoek chcialbym chcialabym chce szukam хочу хотел* интересно интересует ищу vill "
    "skulle_vilja letar soker gostaria procuro wanted requesting request ask_for asking_for can_i_ask may_i_ask "
    "might_i_ask require asked_me_to wants_to_know wanted_to_know wants_me_to thank_you_for_any thanks_for_any "
    "wanting",
    "curious": "wonder wondering wonderd wondring curious neugierig benieuwd ciekaw* undrar nyfiken same_question "
    "what_about_mine how_about_mine wondered",
    "unsure": "no_idea no_clue not_a_clue haven_t_a_clue not_sure unsure don_t_know dont_know do_not_know dunno "
    "don_t_recognise know_nothing can_t_tell cant_tell cannot_tell can_t_work_out can_t_identify can_t_find_out "
    "clueless mysterious unidentified keine_ahnung weiss_nicht wei_nicht unbekannt aucune_idee ne_sais_pas sais_pas "
    "ni_idea no_se no_sabemos non_so nessuna_idea geen_idee weet_niet nie_wiem nie_mam_pojecia не_знаю "
    "понятия_не_имею ingen_aning vet_inte stumped baffled puzzled found_nothing find_nothing nothing_about no_info "
    "no_information can_t_find cannot_find cant_find couldn_t_find i_can_t i_cant i_cannot i_couldn_t i_could_not "
    "we_can_t unknown not_certain uncertain weiss_nichts weiss_nichts_daruber nichts_daruber",
    # --- what is asked
    "old": "old older oldest ancient yrs_old alt alte altes alter aelter alteste ans anos anni lat лет oud oude "
    "ouder gammal gammalt gammel vecchia vecchio vieille vieux vieja viejo stara stary stare ålder how_much_old "
    "how_early how_late how_much_older how_many_years been_around around_for odl olld",
    "quality": "age ages agee year years yr yrs yeer yere dates date decade century era period model models modle "
    "modell maker makers manufacturer brand birthday birth birthdate vintage generation alter baujahr jahr jahrgang "
    "herstellungsjahr zeit produktionsjahr vilket_ar fran_ar jahrzehnt jahrhundert marke hersteller modelle annee "
    "datation modele epoque marque fabricant usine ano edad antiguedad modelo marca fabricante epoca fecha year_of "
    "anno anni_di_produzione eta modello casa_produttrice data jaar bouwjaar productiejaar leeftijd merk fabrikant "
    "rok roku rocznik rocznika wiek wieku marka producent год года году годов возраст модель модели марка "
    "производитель arsmodell argang alder tillverkningsar decennium tillverkare artal factory fabrik werk age_range "
    "origin origins herkunft time_period timeframe time_frame time_span ballpark year_range year_model aldern aret "
    "modellen name_of_this name_of_it name_of_the_machine date_to date_from dates_from tijd periodo periode perioda "
    "период okres okresu",
    "maker": "maker makers manufacturer brand hersteller marke marque fabricant marca fabricante casa_produttrice "
    "merk fabrikant marka producent марка производитель tillverkare factory fabrik",
    "date": "date dates data datum fecha",
    "others": "they he ils ellos ellas loro zij oni они sie",
    "need": "need needs require should must have_to has_to",
    "year": "year years yr yrs yeer date dates decade jahr baujahr annee ano anno jaar rok roku год года vilket_ar "
    "fran_ar",
    "kind": "make type kind sort works version company firm line art typ sorte genre tipo soort rodzaj typu тип "
    "batch series variant generation",
    "made": "made built build manufactured produced production manufacture born assembled constructed dated "
    "left_the_factory leave_the_factory left_the_works leave_the_works come_out_of roll_off sold_new they_make "
    "they_build gebaut hergestellt gefertigt produziert entstanden gemacht fabrique fabriquee fabriques construite "
    "construit sortie fabrication fabricada fabricado fabrico fabricaron fabricacion hizo hicieron hecha hecho "
    "construyo construida fabbricata fabbricato costruita costruito prodotta prodotto fatta gemaakt gebouwd "
    "geproduceerd vervaardigd wyprodukowan* zrobion* powstala produkcji wyprodukowal* выпущен* выпустил* "
    "изготовлен* сделан* сделали сделал произведен* производства выпуска tillverk* byggd byggdes gjord gjordes "
    "gjorde de_quand de_cuando di_quando von_wann van_wanneer manufacturing have_made have_built released "
    "introduced launched issued allocated first_made been_around mde maed start_life started_life came_out come_out "
    "get_made got_made come_off came_off off_the_line making come_onto came_onto go_on_sale went_on_sale "
    "onto_the_market",
    "being": "cat cats dog dogs kitten puppy kid kids child children baby boy girl guy man woman grandson "
    "granddaughter building church tree house hall shop town hund katze kind kinder haus sohn tochter chat chien "
    "enfant fils fille gato perro hijo hija nino gatto cane figlio figlia kat hond zoon dochter kot pies syn corka "
    "кот собака сын дочь katt barn son dotter",
    "from": "from aus uit fran z ze из ot come_from comes_from stammt stammen komt",
    "identify": "identify identifying identification ident id id_d indentify identfy identity recognise recognize "
    "recognises recognizes pin_down datable dateable dating redate identifizier* bestimmen zuordnen einordnen "
    "altersbestimmung datier* identifier dater identificar identificarla datar fecharla datarla identificare datare "
    "identificeren dateren thuisbrengen zidentyfikowac rozpoznac rozpoznaje okreslic datowac определить опознать "
    "датировать identifiera datera dated decode decoding deciphering decipher reconnait reconnaissez riconosce "
    "riconoscete reconoce erkennt herkent узнает kanner_igen erkennen put_a_date put_a_year put_an_age put_a_name "
    "fechar bestimmung",
    "any": "any some irgendein irgendwelche kein alguna algun qualche enige jakies jakas какие_нибудь nagon nagra "
    "des",
    "vague": "info infos information informations details detail idea ideas idear clue clues thought thoughts "
    "history story background provenance anything something owt facts insight insights guidance any_takers "
    "informationen auskunft hinweise hinweis geschichte ahnung etwas ideen idee renseignement* histoire "
    "quelque_chose informacion informaciones algo datos historia pista pistas informazioni informazione notizie "
    "qualcosa storia informatie iets informacje cos_o cos pomysl информаци* сведения что_нибудь что_то историю "
    "upplysningar nagot guesses any_guess shed_light throw_light some_light any_light hint hints pointer pointers "
    "lead leads make_of made_of_it record records knowledge ask_about asking_about inquire_about enquire_about "
    "question_about meaning heard_of come_across came_across ring_a_bell familiar can_i_ask_about may_i_ask_about "
    "could_i_ask_about informacji a_guess have_a_guess one_more two_more another_one one_for_you "
    "one_for_the_experts",
    "guess": "old_one as_old antique antiques vintage victorian edwardian pre_war prewar post_war postwar interwar "
    "wartime war_time the_war ww1 ww2 wwi wwii twenties thirties forties fifties sixties seventies eighties "
    "nineties turn_of_the_century very_old that_old really_old genuine early late rare antik antike antica antico "
    "antigua antiguo ancien ancienne vorkriegs* zabytkow* антикварн* nineteenth twentieth 19th 20th vor_dem_krieg "
    "avant_guerre avant_la_guerre antes_de_la_guerra prima_della_guerra voor_de_oorlog przed_wojna przed_wojny "
    "до_войны fore_kriget hundert_jahre hundred_years 100_years english british american german swedish italian "
    "french scottish swiss austrian anterior_a_la_guerra",
    "meaning": "mean means tell tells bedeutet heisst significa betekent znaczy значит betyder known say tell_me "
    "tell_us make_it make_her make_mine make_that make_this stand_for stands_for said says",
    "confirm": "right true correct wrong possible really sure surely plausible likely stimmt richtig kann_das_sein "
    "vrai juste cierto verdad vero giusto possibile klopt prawda правда верно stammer who_is_right who_s_right fit "
    "fits add_up adds_up make_sense which_is_correct which_is_right which_one_is_right which_one_is_correct match "
    "matches wirklich echt vraiment de_verdad davvero naprawde действительно verkligen surely_not am_i_close "
    "am_i_right am_i_wrong",
    # --- the machine, and how one came by it
    "it": "it this that these those she her hers its it_s mine one ones them thing sie es diese dieser dieses "
    "diesen dies das ihr celle ca cela elle ceci cette esta este esto esa ella la_mia questa questo quella lei deze "
    "dit zij ze ten ta ona она это эта этот ее её ней den det denna detta hon min_egen looking_at c_est "
    "dealing_with das_fur_eine das_fur_ein that_old est_ce ist_das che_cos_e wat_is_dit wat_is_dat",
    "have": "have has had ve got get gotten own bought buy bort purchased acquired picked_up picked_this_up "
    "picked_it_up pick_up picked find found inherited inherit given gave gifted left rescued landed_with ended_up "
    "came_across received stumbled habe haben hab geerbt gefunden gekauft bekommen geschenkt erstanden ersteigert "
    "ai trouve trouvee achete achetee herite recu recupere tengo tenemos encontre encontrado comprado compre herede "
    "heredado regalado ho abbiamo trovato trovata comprato ereditato regalato heb hebben gevonden gekocht geerfd "
    "gekregen mam mamy znalazl* kupil* odziedziczyl* dostal* нашел нашла нашли купил купила досталась достался "
    "досталось есть har hittade hittat kopt kopte arvt fick end_up end_up_with ended_up_with was_habe was_hab "
    "was_haben having",
    "machine": "machine machines mashine machien machne maschine maschinen nahmaschine maschinchen sewing treadle "
    "machine_a_coudre couture maquina maquinas coser macchina macchine cucire naaimachine naaimachientje maszyna "
    "maszyne maszyny maszynie машинк* машина машину машины швейн* maskin maskinen symaskin symaskinen lady beauty "
    "gem treasure handcrank hand_crank relic antique heirloom",
    "family": "grandmother grandmothers grandma grandmas granny grannys gran grans nan nana nanna nans mum mums mom "
    "moms mother mothers aunt aunts aunty auntie uncle father dad dads grandad granddad grandpa grandfather "
    "grandparents parents wife husband sister brother cousin son daughter law great family neighbour neighbours "
    "neighbor friend friends lady late oma opa urgross* grossmutter mutter vater tante onkel nachbar* frau mann "
    "schwiegermutter grand_mere grands_parents mere pere abuela abuelo madre padre tia suegra nonna nonno mamma zia "
    "suocera buurvrouw moeder schoonmoeder babcia babci babcie mama mamy ciocia ciotki бабушк* мам* тет* mormor "
    "farmor moster",
    "place": "attic loft barn shed garage cellar basement skip tip flea market boot boot_sale charity thrift junk "
    "shop store house home clearance clearing clearing_out dump estate auction_house antique_shop sale_room jumble "
    "yard garden dachboden keller speicher flohmarkt scheune sperrmull haushaltsauflosung grenier brocante cave "
    "vide_grenier desvan sotano mercadillo rastro trastero soffitta mercatino cantina zolder kelder rommelmarkt "
    "kringloop strych* piwnic* targ* чердак* подвал* барахолк* vinden kallaren loppis loppmarknad car_boot "
    "car_boots",
    "label": "n sn number numbers numer numbr serial serials no nr num s_n reads read says say stamped marked "
    "marking engraved reading written plate badge base bed pillar underneath underside front bottom under carries "
    "bearing digits digit nummer seriennummer fabriknummer steht drauf eingestanzt numero numeros serie matricule "
    "gravee plaque grabado placa matricola targhetta serienummer staat numeru seryjny nabity номер* серийн* "
    "написано serienumret tillverkningsnummer star said numbered letter letters",
    # --- kind words
    "greeting": "hi hello hey hiya hallo helo morning evening afternoon day dear all everyone everybody folks group "
    "greetings new newbie newcomer first post member joined newly guten tag abend morgen moin servus zusammen runde "
    "leute bonjour bonsoir salut tous hola buenos buenas dias tardes noches todos ciao salve buongiorno buonasera "
    "tutti goedemorgen goedenavond goedemiddag hoi dag allemaal dzien dobry czesc witam witajcie wszystkich "
    "здравствуйте привет всем добрый день вечер hej hejsan alla god sir madam friends yo omg lol wow gosh haha hmm "
    "hm hi_there hello_there hey_there good_morning good_evening good_afternoon good_day good_night",
    "advance": "in_advance advance voraus avance anticipo antemano alvast gory заранее forhand",
    "thanks": "thank_you many_thanks thanks thank thx tia ta cheers advance in_advance many danke dank vielen "
    "voraus merci avance gracias antemano grazie anticipo mille bedankt alvast dziekuje gory спасибо заранее tack "
    "forhand regards thanks_for_any thanks_for_your thanks_for_help thanks_for_looking thanks_for_reading "
    "thanks_for_the_add thank_you_for_any thank_you_for_your thank_you_for_the_add cheers_for_the_add kind_regards "
    "best_regards best_wishes many_regards greetings_from",
    # --- what speaks against it
    "yours": "your yours you_said you_told you_mentioned you_mean you_meant you_bought you_got did_you have_you "
    "are_you_sure were_you remember remind again deine deiner dein deinen eure hast_du du_hast meinst_du ton "
    "ta_machine tu_as as_tu votre vous_avez tu_maquina tuya tienes dijiste tua hai_detto tuo jouw heb_je je_hebt "
    "twoja twoj masz твоя твой твоей у_тебя твою din ditt har_du du_har",
    "report": "told asked asks wrote posted confirmed explained claimed i_know we_know now_know turns_out "
    "turned_out according looked_up looked_it_up found_out worked_out he him guy typed thought believed the_bot bot "
    "learned i_can i_will i_ll we_ll going_to gonna gesagt gefragt sagte fragte laut demande m_a_dit dijo pregunto "
    "ha_detto chiesto zei vroeg powiedzial сказал сказала спросил sa_att fragade you_can_find you_can_see "
    "you_can_look you_could_look someone_has somebody_has someone_is somebody_is someone_was somebody_was "
    "thanks_for thank_you_for thx_for cheers_for danke_fur merci_pour gracias_por grazie_per bedankt_voor "
    "dziekuje_za спасибо_за tack_for",
    "answers": "yes yeah yep no_it nope ah aha got_it oh right_then correction sorry_i_meant i_meant typo ja nein "
    "doch oui non si nee tak nie да нет nej update",
    "quiz": "quiz quizz win wins winner prize puzzle competition raffle riddle answers trivia lottery raten ratet "
    "ratsel gewinn* tombola devinette concours adivina sorteo indovina lotteria raad loterij zgadnij konkurs "
    "угадайте конкурс gissa tavling guess_the guess_what guess_which guess_who guess_how guess_when can_you_guess",
    "room": "group opinion thoughts expertise knowledge experience assistance members experts guys view views "
    "advice guess reply answer answers time help hilfe meinung aide avis ayuda aiuto parere hulp mening pomoc "
    "opinia помощь мнение hjalp thing turn magic",
    "trade": "for_sale sale sell selling sells sold buyer any_interest buying offer offers swap trade shipping "
    "postage bid bidding reserved wtb wts price prices priced cost costs worth value valuable valuation invoice "
    "tracking parcel order ordered stolen pay paid ono vb verkauf* biete preis versand abzugeben kostet wert "
    "a_vendre vend vends vendu* vendre prix vaut vendo se_vende vendid* precio vale vendut* prezzo valore te_koop "
    "verkocht verkoop prijs waard sprzeda* cena wart* прода* куплю цен* стоит salj* sald* kopes pris vard valeur "
    "valor collect collection free giveaway good_home for_free_to free_to_a",
    "other_asking": "why whether if_it if_the if_this if_# how_come how_long_is how_much how_many how_heavy how_big "
    "how_wide how_fast how_far how_often how_loud warum wieso ob wieviel pourquoi combien por_que cuanto_vale "
    "cuanto_cuesta perche quanto_costa quanto_vale waarom hoeveel dlaczego czy_mozna почему зачем varfor whose "
    "what_to where_to how_to was_tun que_faire cosa_fare wohin hinkommt",
    "topic": "belt belts bobbin* shuttle* needle* oil oiled oiling thread threads threading tension stitch* presser "
    "foot pedal motor* spring screw* bolt* wheel handwheel handle lid case cabinet drawer* decal* paint* repaint* "
    "varnish rust rusty clean* repair* restore* restor* fix fixing fixed broke* jam* squeak* stuck loose noise loud "
    "smell* burn* wire wiring plug lamp leather denim quilt* sew sews sewn manual manuals instruction* spare spares "
    "part parts replace* replacement light_bulb colour color heavy weigh* lift carry bring brings brought fetch "
    "lend borrow store lift_home ride saturday sunday monday tuesday wednesday thursday friday tomorrow tonight "
    "weekend meeting meet meets fair exhibition train bus hotel parking cake tea lunch dinner weather rain poster "
    "newsletter list lists sheet column row spreadsheet database album page video link website download photo_of "
    "photos picture_of riemen spule* spulen* schiffchen nadel* ol garn faden unterfaden anleitung ersatz* teil "
    "teile reparier* treffen samstag sonntag morgen_abend courroie canette navette aiguille huile fil pieces notice "
    "reparer samedi reunion correa bobina lanzadera aguja aceite hilo manual_de piezas arreglar sabado cinghia "
    "spola navetta ago olio filo manuale pezzi riparare sabato riem spoel spoeltje naald olie draad handleiding "
    "onderdelen repareren zaterdag pasek bebenek igla olej nic instrukcj* czesci naprawi* sobot* ремень челнок игл* "
    "масло нитк* инструкци* запчаст* почини* суббот* rem spole skyttel nal olja trad bruksanvisning delar lordag "
    "fellow car think_of think_about wobble* too_old sees seen saw spotted check_on belong_to",
    # --- words that say nothing either way
    "subject": "i we you he they im ive u ich wir du ihr er je j tu nous on il vous yo nosotros vosotros io noi voi "
    "ik wij jij jullie hij ja ty oni я мы ты вы он они jag vi ni han de_andra",
    "person": "i we you he your his him us me ich du ihr wir er je tu nous vous il yo ellos io lui noi voi ik jij "
    "wij hij я ты вы мы он jag ni vi han",
    "verb": "is are was were am be been being do does did can could would will might may should shall must s re m d "
    "ll isn wasn aren weren don doesn didn won couldn wouldn ist sind war waren sein ware wird wurde werden kann "
    "konnte konnten kannst konnt konntet hat est sont etait suis serait peut peux pourrait pouvez pourriez es son "
    "era fue sera seria puede pueden podria podrian podeis sono e sarebbe puo potete potrebbe zijn zou zouden kan "
    "kunnen kunt jest sa byl byla bylo byc moze mozna moglby czy может можете можно был была было ли ar var kunde "
    "skulle vara have_been has_been had_been c_est est_ce_que etre essere ser быть are_we_talking est_ce",
    "present": "is does do will can shall are",
    "opinion": "think thinks reckon suppose guess believe say glaubt meint denkt pensez penseriez creeis pensate "
    "denken myslicie думаете tror guessing",
    "filler": "here there exactly precisely now then da denn wohl jetzt eigentlich genau hier ici la_dedans aqui "
    "qui nu dan tu teraz тут здесь har exactement on_earth the_heck the_hell in_the_world the_devil das_fur_eine "
    "das_fur_ein denn_das so ok okay well just really actually only exactly_is called",
    "article": "a an the my our its own der die das den dem des ein eine einer eines einem einen mein meine meiner "
    "meinem meinen unser unsere le la les l un une d mon ma mes notre nos m el los las lo unos unas mi mis nuestra "
    "nuestro il gli uno mia mio miei nostra het een mijn ons onze moj moja moje mojej mojego nasz nasza мой моя мое "
    "мою моей наша en ett min mitt mina and und et y e och i и or oder ou o of lub",
    "particle": "of on for in at to by with me us von vom fur mit bei zu zum zur im am an auf mir mich uns du de "
    "des au aux en sur pour avec dans par moi del al y para por con sin sobre della dello dei da dal dalla di a ad "
    "alla nel nella su sul sulla per tra ed ci mi van voor op aan bij met uit te om w we z ze o od do za przy po "
    "mnie nam na в на с со из у о об от до за по для мне меня нас av till med i pa oss behind into",
    "roughly": "about around circa approx approximate approximately roughly ungefahr etwa environ vers "
    "aproximadamente ongeveer okolo około примерно ungefar by_any_chance abouts",
    "plain": "seller dealer vendor owner but as so also too just only very quite really actually here there now "
    "then than probably maybe perhaps possibly exactly ever any some each both two three another other much many "
    "little bit lot t has_got not up over into off if_possible let make_out see give able mean means lovely nice "
    "beautiful gorgeous pretty wonderful green black brown gold red blue small big cute amazing interesting "
    "old_fashioned cast iron wooden wood yesterday today recently ago long_ago week month question questions quick "
    "silly newbie_question stupid sorry hope asked_before before allowed place right_place newer younger way ways "
    "thinking seems looks look like seem appears apparently come comes went whole well anyway still always never "
    "since because using use used cant cannot wd ur r concerning regarding far standing up_for full complete "
    "completely no under supposed count_as counts_as who_knows_about originally first last_one gives same wohl denn "
    "mal da hier dann nach uber um unter aber auch noch nur schon sehr ganz c comme gibt gestern heute neulich "
    "schone nicht kein keine liebe dazu daruber irgend vielleicht eigentlich genau freuen ca aux y s se qui qu si "
    "pas ne plus tres bien aujourd hui belle petite son ses leur que lui su sus muy ayer hoy preciosa bonita tiene "
    "lleva alguna alguno non molto ieri oggi bella qualche sua suo ha naar maar ook nog wel zo heel er dat niet "
    "geen gisteren vandaag mooie heeft ale nie sie to tej tego tym ma by wczoraj dzis piekna numerze а но не же бы "
    "этой этого ее вчера сегодня men fran for inte ocksa igar idag fin som finns legend rumour lore claims claim "
    "hearsay nineteenth nothing else this_year next_year last_year this_week next_week years_ago year_ago per_year "
    "new_year every_year each_year all_year later_this_year all_years of_the_year for_years in_years two_years "
    "three_years ten_years 100_years hundred what_a what_an how_about what_about looked searched googled everywhere "
    "anywhere online internet web his book books register registers ledger archive archives mind best man ce above "
    "delighted grateful happy thrilled glad rough knew hundert jahre been_told i_was_told was_told we_were_told "
    "were_told i_m_told im_told heard_that no_name anything_for something_for anything_else something_else more "
    "mehr mas piu meer wiecej больше mer welcome opinions long_time first_time some_time last_week last_month "
    "hand_crank sits_in stands_in treadle_table which_is_# which_is_yours not_sure_about don_t_know_about "
    "dont_know_about curious_to_see nichts darueber chance provide narrow_down mystery later earlier for_free "
    "belong belongs correspond goes_with happen happened work works_for needed possible possibility estimate point "
    "wanting mij helpen faccio ifran go start in_the_lists in_the_list in_any_list in_any_lists sound sounds market "
    "came_from",
}  # fmt: skip

COMMON = "what which when where year model made machine date know anyone identify serial number built please help"
"""Words so common in questions that two letters swapped, or one left out of a longer one, are no hindrance."""
