/* The tables of a farm as bytes. */
#include "farm/write.h"

#include "base/csv.h"
#include "farm/cell.h"
#include "farm/read.h"

static void write_header(CsvWriter *writer, const Table *table)
{
    for (int i = 0; i < table->field_count; i++) {
        csv_writer_cell(writer, table->fields[i].name);
    }
    csv_writer_end_row(writer);
}

FarmBytes farm_write_header(TableId table, Arena *arena)
{
    CsvWriter writer;
    csv_writer_init(&writer, arena);
    write_header(&writer, &FARM_TABLES[table]);
    return (FarmBytes){writer.bytes, writer.length};
}

FarmBytes farm_write_table(const Farm *farm, TableId id, Arena *arena)
{
    const Table *table = &FARM_TABLES[id];
    CsvWriter writer;
    csv_writer_init(&writer, arena);
    write_header(&writer, table);
    const char *row = farm_rows(farm, table);
    int32_t count = farm_row_count(farm, table);
    for (int32_t r = 0; r < count; r++, row += table->row_size) {
        for (int i = 0; i < table->field_count; i++) {
            csv_writer_cell(&writer,
                            cell_format(&table->fields[i], row, farm, arena));
        }
        csv_writer_end_row(&writer);
    }
    return (FarmBytes){writer.bytes, writer.length};
}
