/* A small sound farm, one change to it, and what is told of that. */
#ifndef LEAT_TESTS_SOUND_FARM_H
#define LEAT_TESTS_SOUND_FARM_H

#include "check.h"

#include <stdio.h>

#include "farm/check.h"
#include "tables.h"

enum { FARM_TABLES_USED = 24 };

typedef struct TestTable {
    const char *file;
    const char *text;
} TestTable;

#define PLANTS_CSV                                                             \
    "id,way,bed,place,sections,plants,set_on,counted_on\n"                     \
    "a1,basil,b1,floor,3,,2027-02-01,2027-03-01\n"                             \
    "a2,rocket,b1,floor,1,,2027-02-01,2027-03-01\n"                            \
    "a3,cucumber,b2,edge,,6,2027-02-22,2027-03-01\n"

/* A small sound farm. */
static const TestTable SOUND[FARM_TABLES_USED] = {
    {"farm.csv", FARM_CSV},
    {"climate.csv", CLIMATE_CSV},
    {"loops.csv", "id,sump_m3\nl1,0.5\nl2,3\n"},
    {"tunnels.csv",
     "id,length_m,width_m,cover,vent_m2\nH1,27,7,pe-single,38\n"},
    {"tanks.csv", "id,loop,use,volume_m3\nA,l1,grow,6\nB,l2,grow,6\n"
                  "E,l2,breeders,1\nP,,purge,0.6\n"},
    {"pumps.csv", "id,loop,flow_m3_h,tanks_frac\np1,l1,12,0.3\np2,l2,9,0\n"},
    {"zones.csv", "id,loop,pump,turn,minutes\nz1,l1,p1,1,20\nz2,l1,p1,2,20\n"
                  "z3,l2,p2,1,20\n"},
    {"links.csv", "id,kind,from_tank,from_loop,to_tank,to_loop,months\n"
                  "k1,overflow,A,,,l1,all\nk2,valve,,l1,A,,all\n"
                  "k3,transfer,P,,A,,all\n"},
    {"aerators.csv",
     "id,tank,loop,power_w\nb1,,l1,200\nb2,,l2,200\nb3,P,,30\n"},
    {"heaters.csv", "id,loop,tank,power_kw,target_degc\nh1,l1,,15,20\n"},
    {"beds.csv", "id,tunnel,walk,length_m,width_m,depth_m,flood_m,gravel,zone,"
                 "edge,edge_m\n"
                 "b1,H1,1,2.4,1.2,0.3,0.25,gravel-8-20,z1,none,0\n"
                 "b2,H1,2,2.4,1.2,0.3,0.25,gravel-8-20,z2,sunny,2.4\n"
                 "b3,H1,3,2.4,1.2,0.3,0.25,gravel-8-20,z3,none,0\n"},
    {"feeds.csv", "id,protein_frac,from_g,to_g,price_kg\nf1,0.32,20,900,1\n"},
    {"bases.csv", "id,kind\ni1,iron-dtpa-11\n"},
    {"fish.csv", "id,species,tank,counted_on,count,mean_g,cv_frac,sex,is_kept\n"
                 "g1,nile-tilapia,A,2027-03-01,250,440,0.15,sexed,no\n"
                 "g2,nile-tilapia,E,2027-03-01,20,430,0.1,mixed,yes\n"},
    {"fish_sources.csv",
     "id,species,kind,mean_g,cv_frac,sex,price,least,most,breeders,fry_cycle\n"
     "s1,nile-tilapia,bought,25,0.2,males,0.8,200,800,,\n"
     "s2,nile-tilapia,own,12,0.3,mixed,0.1,150,600,E,900\n"},
    {"trays.csv", "id,cells\nt72,72\n"},
    {"nursery.csv", "id,trays\nn1,40\n"},
    {"crops.csv", "id,book\nbasil,basil\nrocket,rocket\ncucumber,cucumber\n"},
    {"ways.csv", "id,crop,book,unit,unit_g,tray\n"
                 "basil,basil,basil-bunch,bunch,40,t72\n"
                 "rocket,rocket,rocket-cut,kg,1000,\n"
                 "cucumber,cucumber,cucumber-edge,fruit,450,t72\n"},
    {"plants.csv", PLANTS_CSV},
    {"products.csv", "id,unit\npesto,jar\nfish,fish\n"},
    {"parts.csv", "product,way,fish_over_g,units\npesto,basil,,2\n"
                  "pesto,rocket,,0.05\nfish,,450,1\n"},
    {"buyers.csv", "id\ninn\nshop\n"},
    {"orders.csv", "id,buyer,product,quantity,firmness,least,months,from,"
                   "until\n"
                   "o1,inn,pesto,12,promised,,5-10,,\n"
                   "o2,shop,fish,4,outlet,2,all,2027-05-13,2027-05-13\n"},
};

/* Tables that only some tests need, and those beyond the array above. */
static const TestTable MORE[] = {
    {"prices.csv", "product,buyer,price,from,until\npesto,,3.5,,\n"
                   "fish,inn,5.5,,2027-12-31\nfish,inn,6,2028-01-01,\n"
                   "fish,shop,5.5,,\n"},
    {"hands.csv", "id,hours_w,days,may,wage_h\n"
                  "o,40,all,sow set prune clear clean net dose vent deliver "
                  "test feed,12\ng,20,mon tue,net pick,10\n"},
    {"closures.csv", "id,kind,buyer,hand,from,until\n"
                     "c1,buyer,inn,,2027-02-01,2027-02-28\n"
                     "c2,person,,o,2027-08-02,2027-08-15\n"},
    {"tasks.csv", "id,skill,minutes,times_w\nround,feed,75,7\n"},
    {"contacts.csv", "id,turn,name,phone\nx,1,Ann,0\ny,2,Bo,0\n"},
    {"readings.csv", "tank,loop,at,quantity,value\n"
                     "A,,2027-03-01T07:30Z,ph,7.2\n"},
    {"counted.csv", "way,counted_pct,years,from\nbasil,70,400,2027-03-01\n"},
    {"figures.csv", "about,figure,value,low,high\n"
                    "basil-bunch,yield_g,30,20,40\n"},
};

enum {
    MORE_COUNT = sizeof MORE / sizeof *MORE,
    ALL_COUNT = FARM_TABLES_USED + MORE_COUNT
};

/* One change to the sound farm and what is told of it. */
typedef struct Case {
    const char *file;
    const char *old; /* NULL: the text is put behind the table */
    const char *new;
    const char *told; /* the faults, or the one notice after "notice: ", or the
                         one doubt after "doubt: " */
} Case;

static inline const char *changed(const Case *change, const TestTable *table,
                                  Arena *arena)
{
    if (strcmp(change->file, table->file) != 0) {
        return table->text;
    }
    if (!change->old) {
        return arena_text(arena, "%s%s", table->text, change->new);
    }
    const char *at = strstr(table->text, change->old);
    assert_non_null(at);
    return arena_text(arena, "%.*s%s%s", (int)(at - table->text), table->text,
                      change->new, at + strlen(change->old));
}

/* The one notice or doubt. */
static inline const char *notice_text(const Faults *faults, bool is_doubt)
{
    for (int32_t i = 1; i < faults->notice_count; i++) {
        print_error("and: %s\n", faults->notices[i].expected);
    }
    assert_int_equal(faults->notice_count, 1);
    const Fault *notice = &faults->notices[0];
    assert_int_equal(notice->is_doubt, is_doubt);
    const FaultPlace *place = &notice->place;
    return is_doubt
               ? arena_text(faults->arena, "doubt: %s:%d:%d: \"%s\": %s",
                            place->file, (int)place->line, (int)place->column,
                            notice->value, notice->expected)
               : arena_text(faults->arena, "notice: %s:%d: %s", place->file,
                            (int)place->line, notice->expected);
}

static inline void check_case(const Case *change)
{
    CLEANUP(arena_release) Arena arena = {0};
    Faults faults;
    faults_init(&faults, &arena, FAULTS_USUAL_LIMIT);
    FarmBuffer buffers[ALL_COUNT + 1];
    int count = 0;
    bool is_found = false;
    for (int i = 0; i < ALL_COUNT; i++) {
        const TestTable *table =
            i < FARM_TABLES_USED ? &SOUND[i] : &MORE[i - FARM_TABLES_USED];
        const char *text = changed(change, table, &arena);
        buffers[count++] = (FarmBuffer){table->file, text, strlen(text)};
        is_found |= strcmp(change->file, table->file) == 0;
    }
    if (!is_found) {
        buffers[count++] =
            (FarmBuffer){change->file, change->new, strlen(change->new)};
    }
    FarmRead *read = ARENA_NEW(&arena, FarmRead);
    Book book = {0};
    assert_ok(book_load(&arena, &book));
    farm_read(buffers, count, &faults, read);
    farm_check(read, &book, &faults);
    faults_sort(&faults);
    bool is_doubt = strncmp(change->told, "doubt: ", 7) == 0;
    bool is_notice = is_doubt || strncmp(change->told, "notice: ", 8) == 0;
    const char *told = faults_text(&faults);
    if (is_notice) {
        assert_string_equal(told, "");
        told = notice_text(&faults, is_doubt);
    } else if (faults.notice_total > (*told ? faults.doubt_total : 0)) {
        print_error("notice: %s\n", faults.notices[0].expected);
        fail();
    }
    /* A text without its line's end is how the only fault begins. */
    size_t length = strlen(change->told);
    if (length > 0 && change->told[length - 1] != '\n') {
        assert_int_equal(faults.count, is_notice ? 0 : 1);
        told = arena_text(&arena, "%.*s", (int)length, told);
    }
    assert_string_equal(told, change->told);
}

static inline void check_cases(const Case *cases, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        check_case(&cases[i]);
    }
}

#define CHECK_CASES(cases) check_cases(cases, sizeof(cases) / sizeof *(cases))

#endif
